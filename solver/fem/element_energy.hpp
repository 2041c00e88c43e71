// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "solver/fem/problem.hpp"
#include "solver/fem/space.hpp"

namespace coilpull::detail {

// The physics, and nothing else. Per triangle, with x its coefficients and B = sum_i x_i B_i:
//     E(x) = int [ U(B) - J A_phi ] dV,   U = int_0^B H dB,   magnets: U = (B - Br)^2 / (2 mu0 mu_r).

/// A straight law: E = 1/2 x'Kx - f.x + constant.
struct LinearElement {
  Eigen::MatrixXd stiffness;    ///< K_ij = int nu B_i . B_j dV
  Eigen::VectorXd magnet_load;  ///< f_i = int Br . B_i / (mu0 mu_r) dV; zero without a magnet
  double constant;              ///< int Br^2 / (2 mu0 mu_r) dV [J]
};

bool is_nonlinear(const RegionPhysics& region);

/// @pre the region is not nonlinear
void linear_element(const RegionPhysics& region, const ElementFields& fields, LinearElement& out);

/// f_i = int n A_i dV for n turns per area: flux linkage of the coefficients, and load per ampere.
void winding_load(const Winding& winding, const ElementFields& fields, Eigen::VectorXd& out);

/// A triangle of saturable steel, kept ready for Newton: its fields do not change, only its coefficients.
class SteelElement {
public:
  SteelElement(const SoftLaw& law, const ElementFields& fields);

  /// Sets the state to these coefficients: g_i += int H . B_i dV. Returns int H . B dV >= 0 [J].
  double gradient(const Eigen::VectorXd& x, Eigen::VectorXd& g);
  /// K_ij = int B_i . dH/dB . B_j dV at the last state; lower triangle.
  void tangent(Eigen::MatrixXd& k) const;
  /// int U(B) dV at the last state [J].
  double energy() const { return energy_; }

private:
  const SoftLaw* law_;
  Eigen::MatrixXd b_r_, b_z_;  ///< (points, functions)
  Eigen::ArrayXd weight_;
  Eigen::ArrayXd rr_, rz_, zz_;  ///< dH/dB at the last state, times the weight
  double energy_ = 0;
};

}  // namespace coilpull::detail
