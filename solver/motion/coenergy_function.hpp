// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/motion/spline_axis.hpp"

namespace coilpull {

/// All that a simulation of circuit and motion asks at one displacement and current.
struct CoenergyPoint {
  double coenergy_J;   ///< W'
  double force_N;      ///< dW'/dz, on the moving parts along +z
  double linkage_Wb;   ///< dW'/di
  double force_slope;  ///< d2W'/dz2 = dF/dz [N/m]
  double
      force_per_ampere;  ///< d2W'/dz di = dF/di = d(linkage)/dz [N/A] or [V s/m]: also the motion's voltage
  double inductance_H;   ///< d2W'/di2 = d(linkage)/di, incremental
};

/// Magnetic coenergy W'(z, i) of a device over its displacement z and the current i of one circuit; the other
/// circuits stay at the currents they had in the table.
///
/// A product of splines of degree 5 (SplineAxis): W' has continuous derivatives up to the fourth, so force
/// and flux linkage are smooth and their slopes continuous. Force and linkage are the two derivatives of one
/// function,
///   dW' = F dz + linkage di     (Woodson and Melcher, Electromechanical Dynamics I, 1968, section 3.1),
/// therefore a simulation that takes both from here neither makes nor loses energy:
///   d/dt (linkage i - W') = i d(linkage)/dt - F dz/dt.
///
/// Beyond its range W' goes on as the parabola of the edge in either direction: just beyond an edge force and
/// linkage follow their tangent there. It is still one C2 function, so energy is kept there too, but it is no
/// longer the device: ask covers(). Nothing is thrown.
class CoenergyFunction {
public:
  /// @param coefficients  (displacement.functions(), current.functions()) [J]
  /// @throws std::invalid_argument  other numbers of coefficients
  CoenergyFunction(SplineAxis displacement, SplineAxis current, Eigen::MatrixXd coefficients);

  /// @param displacement [m]  @param current_A  @return NaN for NaN
  CoenergyPoint at(double displacement, double current_A) const;
  bool covers(double displacement, double current_A) const;

  const SplineAxis& displacement() const { return z_; }
  const SplineAxis& current() const { return i_; }

private:
  SplineAxis z_, i_;
  Eigen::MatrixXd coefficients_;
};

}  // namespace coilpull
