// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>

#include "meshing/point.hpp"
#include "solver/field/newton.hpp"

namespace coilpull {
namespace detail {
struct Space;
}

struct FluxDensity {
  double r, z;
};  ///< [T]

/// A solved field. A value: it shares mesh and numbering with its siblings and outlives their solver.
struct Field {
  std::shared_ptr<const detail::Space> space;
  Eigen::VectorXd coefficients;  ///< of v, see fem/space.hpp
  Eigen::VectorXd linkage_Wb;    ///< per circuit, turns counted
  double coenergy_J =
      0;  ///< sum(linkage * current) - stored energy; with a background field: counted from it
  NewtonReport report;
};

/// A_phi [T m] and B [T] at a point inside the half circle. @throws std::out_of_range outside the mesh
double vector_potential(const Field& field, Point at);
FluxDensity flux_density(const Field& field, Point at);

}  // namespace coilpull
