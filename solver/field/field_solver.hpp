// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>

#include "meshing/mesh.hpp"
#include "solver/fem/problem.hpp"
#include "solver/field/field.hpp"
#include "solver/field/newton.hpp"

namespace coilpull {

struct FieldOptions {
  int order = 3;             ///< polynomial order of v, 1 to 6
  double outer_ratio = 1.3;  ///< half circle over device: sets the number of harmonics outside
  NewtonOptions newton = {};
};

/// One field, once.
Field solve_field(std::shared_ptr<const Mesh> mesh, const Problem& problem, const Eigen::VectorXd& currents_A,
                  const FieldOptions& options = {});

/// Many fields on one mesh: everything that does not depend on the currents is done in the constructor.
class FieldSolver {
public:
  /// @throws std::invalid_argument  the problem does not describe every region of the mesh, or steel touches
  /// the
  ///                                half circle
  /// @throws std::runtime_error     the linear part is not positive definite (a broken mesh)
  FieldSolver(std::shared_ptr<const Mesh> mesh, Problem problem, FieldOptions options = {});
  /// On a space made elsewhere, for example one whose triangles have been moved; its order counts.
  FieldSolver(std::shared_ptr<const detail::Space> space, Problem problem, FieldOptions options = {});
  ~FieldSolver();
  FieldSolver(FieldSolver&&) noexcept;

  /// Never throws for numerics: ask field.report.usable().
  /// @param start  a first guess: coefficients of this mesh at this or a lower order; empty: zero field
  Field solve(const Eigen::VectorXd& currents_A, const Eigen::VectorXd& start = {});

  const std::shared_ptr<const detail::Space>& space() const;
  const Problem& problem() const;
  int unknowns() const;

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace coilpull
