// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "solver/fem/problem.hpp"
#include "solver/field/sample.hpp"

namespace coilpull {

/// A solved field as cells of a file: each triangle has points of its own, so that the jumps of B and H
/// between materials stay, and as many points as a polynomial of the sample's `divisions` has coefficients.
struct VtuCells {
  FieldSample sample;
  Eigen::Matrix2Xd h;                   ///< (2, points), (H_r, H_z) [A/m]
  Eigen::VectorXd j_phi;                ///< (triangles), of the windings [A/m^2]
  std::vector<std::string> part_names;  ///< by sample.region_of
  double displacement = 0;              ///< [m]
  std::string title = {};
};

/// @param currents_A  one a circuit
VtuCells vtu_cells(FieldSample sample, const Problem& problem, const std::vector<std::string>& part_names,
                   const std::vector<double>& currents_A);

/// Where the points of a sampled triangle go in a VTK Lagrange triangle of that order: corners, then the
/// inner points of edges (0,1), (1,2), (2,0), then the triangle that is left inside in the same way. For
/// orders 1 and 2 this is also VTK's linear and quadratic triangle. Entry k: the sample's point (see
/// FieldSample) that is VTK's k-th.
std::vector<int> vtk_order(int divisions);

}  // namespace coilpull
