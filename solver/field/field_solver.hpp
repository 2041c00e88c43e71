// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <functional>
#include <memory>

#include "meshing/mesh.hpp"
#include "solver/fem/problem.hpp"
#include "solver/field/field.hpp"
#include "solver/field/newton.hpp"

namespace coilpull {

/// How a field is solved.
struct FieldOptions {
  int order = 3;             ///< polynomial order of v, 1 to 6
  double outer_ratio = 1.3;  ///< half circle over device: sets the number of harmonics outside
  /// Everything straight is eliminated once where at most this many unknowns lie on the surface of steel;
  /// where more do, their full matrix would cost more than a sparse one of everything:
  /// benchmarks/surface.cpp.
  int most_on_surface = 600;
  NewtonOptions newton = {};
};

/// One field, once.
Field solve_field(std::shared_ptr<const Mesh> mesh, const Problem& problem, const Eigen::VectorXd& currents_A,
                  const FieldOptions& options = {});

/// How a solved field answers to small changes, K being the tangent there and b_k the load of one ampere in
/// circuit k: all of it from one factorisation.
struct TangentResponse {
  Eigen::MatrixXd inductance_H;  ///< (circuits, circuits): d(linkage_k)/d(current_l) = b_k.K^-1 b_l
  Eigen::VectorXd of_currents;   ///< c.K^-1 b_k: slope along each current of a quantity with gradient c
  double of_itself = 0;          ///< c.K^-1 c
};

/// Many fields on one mesh: everything that does not depend on the currents is done in the constructor.
class FieldSolver {
public:
  /// @throws std::invalid_argument  the problem does not describe every region of the mesh, or steel touches
  /// the
  ///                                half circle
  /// @param like  may be null: on a mesh of the same triangles at other places; what depends on them alone is
  ///              taken over
  /// @throws std::runtime_error     the linear part is not positive definite (a broken mesh)
  FieldSolver(std::shared_ptr<const Mesh> mesh, Problem problem, FieldOptions options = {},
              const FieldSolver* like = nullptr);
  /// On a space made elsewhere, for example one whose triangles have been moved; its order counts.
  FieldSolver(std::shared_ptr<const detail::Space> space, Problem problem, FieldOptions options = {},
              const FieldSolver* like = nullptr);
  ~FieldSolver();
  FieldSolver(FieldSolver&&) noexcept;

  /// Never throws for numerics: ask field.report.usable().
  /// @param start  a first guess: coefficients of this mesh at this or a lower order; empty: zero field
  Field solve(const Eigen::VectorXd& currents_A, const Eigen::VectorXd& start = {});

  /// @param gradient  c, one entry an unknown; must vanish on unknowns inside saturable steel
  /// @throws std::runtime_error  the field is not one that converged here: its tangent is not positive
  /// definite
  TangentResponse respond(const Field& field, const Eigen::VectorXd& currents_A,
                          const Eigen::VectorXd& gradient);

  /// dE/dx of the discrete energy at any coefficients x, one entry an unknown [A m]:
  ///     g_i = int [ H(B) . B_i - J A_i ] dV + (K x - background)_i,
  /// K the outer boundary's. Zero at a solution; elsewhere the imbalance still to be removed.
  /// @param x  coefficients of this mesh at this or a lower order
  Eigen::VectorXd energy_gradient(const Eigen::VectorXd& currents_A, const Eigen::VectorXd& x);

  /// mu = K^-1 c at a converged field, all unknowns: of a quantity with gradient c and whatever shifts the
  /// residual dE/dx by s, the quantity changes by -mu.s.
  /// @param gradient  c, one entry an unknown
  /// @throws std::runtime_error  as respond()
  Eigen::VectorXd adjoint(const Field& field, const Eigen::VectorXd& currents_A,
                          const Eigen::VectorXd& gradient);

  /// adjoint() of the field that the last solve() gave, with the tangent that Newton's last steps went by
  /// instead of the field's own: some percent off at most (NewtonOptions::keep_tangent), for a third of the
  /// price. Where that tangent is gone, adjoint() itself.
  Eigen::VectorXd adjoint_after_solve(const Field& field, const Eigen::VectorXd& currents_A,
                                      const Eigen::VectorXd& gradient);

  /// Fields solved from now on give up when this says so, see NewtonOptions.
  void set_out_of_time(std::function<bool()> out_of_time);

  const std::shared_ptr<const detail::Space>& space() const;
  const Problem& problem() const;
  int unknowns() const;

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace coilpull
