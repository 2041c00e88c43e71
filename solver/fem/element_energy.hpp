// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

#include "solver/fem/element_batch.hpp"
#include "solver/fem/problem.hpp"

namespace coilpull::detail {

// The physics, and nothing else. Per triangle, with x its coefficients and B = sum_i x_i B_i:
//     E(x) = int [ U(B) - J A_phi ] dV,   U = int_0^B H dB,   magnets: U = (B - Br)^2 / (2 mu0 mu_r).

bool is_nonlinear(const RegionPhysics& region);

/// Straight laws: E = 1/2 x'Kx - f.x + constant.
struct LinearBatch {
  Eigen::MatrixXd stiffness;  ///< K_ij = int nu B_i . B_j dV; column = triangle, lower triangle packed
  Eigen::MatrixXd
      magnet_load;  ///< (size, triangles), f_i = int Br . B_i / (mu0 mu_r) dV; empty without a magnet
  double constant;  ///< int Br^2 / (2 mu0 mu_r) dV [J]
};

/// @pre the region is not nonlinear
void linear_batch(const RegionPhysics& region, const ElementBatch& batch, LinearBatch& out);

/// f_i = int n A_i dV for n turns per area: flux linkage of the coefficients, and load per ampere.
/// (size, triangles)
Eigen::MatrixXd winding_load(const Winding& winding, const ElementBatch& batch);

/// Triangles of saturable steel, kept ready for Newton: their shapes do not change, only their coefficients.
class SteelBatch {
public:
  /// @param region  its law is shared: the region must outlive the batch; H = law's H - region.shift_A_per_m
  SteelBatch(const RegionPhysics& region, ElementBatch batch);

  /// Sets the state to these coefficients: pull_i += int H . B_i dV. Returns int |H . B| dV of the
  /// law without its shift [J].
  /// @param own,pull  (size, triangles)
  double gradient(const Eigen::MatrixXd& own, Eigen::MatrixXd& pull);
  /// K_ij = int B_i . dH/dB . B_j dV at the last state; column = triangle, lower triangle packed. The matrix
  /// is kept until the next call.
  const Eigen::MatrixXd& tangent();
  /// int [U(B) - shift B_z] dV at these coefficients [J]; the state for tangent() is left as it was.
  double energy(const Eigen::MatrixXd& own);

private:
  const SoftLaw* law_;
  double shift_A_per_m_;
  ElementBatch batch_;
  Eigen::ArrayXXd rr_, rz_, zz_;           ///< dH/dB at the last state, times the weight
  Eigen::ArrayXXd b_r_, b_z_, h_r_, h_z_;  // work from here on
  Eigen::MatrixXd slots_, pairs_, packed_;
};

}  // namespace coilpull::detail
