// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/device/roles.hpp"
#include "solver/field/field.hpp"

namespace coilpull {

/// A function g of position: 1 on the body and a thin layer of air around it, 0 on all other parts, their
/// layer and the half circle, harmonic between. Moving every point by t g moves the body by t.
/// Depends on the mesh alone: one weight serves all currents and orders.
class ForceWeight {
public:
  /// @param roles  one per region of the mesh
  ForceWeight(const detail::Space& space, const std::vector<Role>& roles);

  const Eigen::VectorXd& coefficients() const { return g_; }  ///< hierarchical basis of order 2 on the mesh
  const std::vector<int>& triangles() const { return active_; }  ///< those where g is not constant

private:
  Eigen::VectorXd g_;
  std::vector<int> active_;
};

/// Axial force on the body [N], positive along +z, as a quadratic form of the coefficients:
///     F = - int [ T_zr dg/dr + T_zz dg/dz ] dV,  T_zr = B_r B_z / mu0,  T_zz = (B_z^2 - B_r^2) / (2 mu0),
/// Maxwell's stress in air. It equals, to rounding, minus the derivative of the discrete energy when the mesh
/// is moved along z by t g with carried coefficients: under that motion d(dv/dz) = -(dg/dz)(dv/dz), d(dv/dr)
/// = -(dg/dr)(dv/dz) and d(dV) = (dg/dz) dV, for any order, shape of triangle and quadrature; by the minimum
/// principle the derivative of the coefficients does not enter.  Compare Coulomb, IEEE Trans. Magn. 19 (1983)
/// 2514.
class AxialForce {
public:
  AxialForce(const detail::Space& space, const ForceWeight& weight);
  double on(const Field& field) const;
  /// dF/dx = 2Qx, one entry an unknown.
  Eigen::VectorXd gradient(const Field& field) const;
  /// Slope of the force along the motion t g at carried coefficients [N/m]:
  ///     - int |grad g|^2 B_r^2 / mu0 dV,
  /// the second derivative of the energy under the same motion as above: (B_r^2 dV)'' = 2 (dg/dz)^2 B_r^2 dV
  /// and (B_z^2 dV)'' = 2 (dg/dr)^2 B_r^2 dV. With K the tangent, dF/dz = this + gradient.K^-1 gradient.
  double slope_at_carried_field(const Field& field) const;

private:
  std::vector<int> dofs_;                ///< (triangles, size)
  std::vector<Eigen::MatrixXd> forms_;   ///< symmetric, F = sum of x'Qx
  std::vector<Eigen::MatrixXd> slopes_;  ///< the same of slope_at_carried_field
};

}  // namespace coilpull
