// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

#include "solver/fem/outer_boundary.hpp"
#include "solver/fem/problem.hpp"
#include "solver/fem/space.hpp"
#include "solver/field/sparse_cholesky.hpp"

namespace coilpull::detail {

/// Everything with a straight law, eliminated once onto the unknowns it shares with saturable steel.
/// With sources c = (currents, 1) [the 1: magnets and background] what is left of the energy is
///     E(x_I) = 1/2 x_I'S x_I - (F c).x_I - 1/2 c'G c + constant.
/// S is full. With more than most_on_surface of them it would be too large (thin walls, fine meshes): then
/// nothing is eliminated, x_I are all unknowns of the straight part, S is their sparse matrix and G is zero.
class Condensed {
public:
  /// @param like  may be null: of a mesh of the same triangles, shares its order of elimination
  Condensed(const Space& space, const Problem& problem, int outer_terms, int most_on_surface,
            const Condensed* like = nullptr);

  const std::vector<int>& interface() const { return interface_; }            ///< global unknowns of x_I
  bool is_full() const { return factor_ != nullptr; }                         ///< whether S is, see above
  Eigen::VectorXd stiffness_times(const Eigen::VectorXd& x_interface) const;  ///< S x_I
  Eigen::SparseMatrix<double> lower_stiffness() const;     ///< lower triangle of S, every entry of a full one
  const Eigen::MatrixXd& loads() const { return loads_; }  ///< F: (interface, circuits + 1)
  const Eigen::MatrixXd& source_energy() const { return gram_; }  ///< G: (circuits + 1)^2
  double constant() const { return constant_; }                   ///< [J]

  /// Adds the straight part's share of dE/dx at any x to g, all unknowns of the space.
  void add_gradient(const Eigen::VectorXd& sources, const Eigen::VectorXd& x, Eigen::VectorXd& g) const;

  /// A load on all unknowns (steel's inner ones ignored), carried to the interface like F: L11^-1 of the
  /// eliminated part, and what is left on the interface.
  struct Carried {
    Eigen::VectorXd eliminated, interface;
  };
  Carried carry(const Eigen::VectorXd& load) const;
  /// The same of each source: columns of [L11^-1 f1; F].
  const Eigen::MatrixXd& carried_sources() const { return forward_; }

  /// Puts x_I and the eliminated unknowns that follow from it into x (all unknowns of the space).
  /// @param eliminated  L11^-1 of the load on the eliminated unknowns, as carried above
  void recover(const Eigen::VectorXd& eliminated, const Eigen::VectorXd& x_interface,
               Eigen::VectorXd& x) const;

private:
  void eliminate(const Condensed* like);

  std::vector<int> interface_,
      unknowns_;  // global unknowns; unknowns_: the eliminated ones, then the interface
  std::unique_ptr<SparseCholesky> factor_;  // null: nothing is eliminated
  Eigen::MatrixXd forward_;                 // [L11^-1 f1; anything] for each source
  Eigen::MatrixXd schur_, loads_, gram_;
  Eigen::SparseMatrix<double> matrix_;  // of the straight part, lower triangle
  Eigen::MatrixXd sources_;             // load on it of each source
  double constant_ = 0;
};

}  // namespace coilpull::detail
