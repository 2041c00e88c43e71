// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/condensed.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "materials/constants.hpp"
#include "solver/fem/element_energy.hpp"
#include "solver/fem/sparse_pattern.hpp"

namespace coilpull::detail {
namespace {

enum Side : char { nowhere = 0, straight = 1, steel = 2 };  // bits: which kind of triangle holds an unknown

}  // namespace

Condensed::Condensed(const Space& space, const Problem& problem, int outer_terms, int most_on_surface,
                     const Condensed* like) {
  std::vector<char> side(space.dofs.size(), nowhere), is_straight;
  std::vector<int> dofs(basis_size(space.dofs.order())), members;
  for (const RegionPhysics& region : problem.regions) is_straight.push_back(!is_nonlinear(region));
  for (int t = 0; t < static_cast<int>(space.topology->triangles.cols()); ++t) {
    space.dofs.of_triangle(t, dofs.data());
    for (const int dof : dofs) side[dof] |= is_straight[space.mesh->region_of[t]] ? straight : steel;
  }
  std::vector<int> local(space.dofs.size(), -1);
  for (const char wanted : {char(straight), char(straight | steel)})
    for (int i = 0; i < space.dofs.size(); ++i)
      if (side[i] == wanted) {
        if (wanted != straight) interface_.push_back(i);
        local[i] = static_cast<int>(unknowns_.size());
        unknowns_.push_back(i);
      }
  const int n = static_cast<int>(unknowns_.size());
  if (static_cast<int>(interface_.size()) > most_on_surface) interface_ = unknowns_;
  const int sources = problem.circuits + 1;
  sources_ = Eigen::MatrixXd::Zero(n, sources);

  Groups groups;
  std::vector<ElementBatch> batches = batches_of(space, is_straight);
  for (ElementBatch& batch : batches) {
    for (int& dof : batch.dofs.reshaped()) dof = local[dof];
    for (const auto& own : batch.dofs.colwise()) groups.add(own.data(), own.size());
  }
  OuterBoundary outer;
  if (space.mesh->outer_edges.cols() > 0) {
    outer = outer_boundary(space, outer_terms);
    for (const int dof : outer.dofs) {
      if (local[dof] < 0) throw std::invalid_argument("steel touches the outer half circle");
      members.push_back(local[dof]);
    }
    groups.add(members.data(), members.size());
  }
  matrix_ = symmetric_pattern(n, groups);

  LinearBatch part;
  std::vector<int> places;
  for (const ElementBatch& batch : batches) {
    const RegionPhysics& region = problem.regions[batch.region];
    linear_batch(region, batch, part);
    places.clear();
    for (const auto& own : batch.dofs.colwise()) append_places(matrix_, own.data(), own.size(), places);
    add_packed(matrix_, places.data(), part.stiffness);
    if (part.magnet_load.size() > 0) scatter(batch.dofs, part.magnet_load, sources_.col(sources - 1));
    constant_ += part.constant;
    if (region.winding)
      scatter(batch.dofs, winding_load(*region.winding, batch), sources_.col(region.winding->circuit));
  }
  if (!members.empty()) {
    places.clear();
    append_places(matrix_, members.data(), members.size(), places);
    add_at(matrix_, places.data(), outer.stiffness);
    for (std::size_t i = 0; i < members.size(); ++i)
      sources_(members[i], sources - 1) += problem.background_bz_T * outer.per_background_T[i];
    // Empty space in the background has the energy -pi R^3 B0^2 / mu0 in these terms: count from there.
    const double b0 = problem.background_bz_T;
    constant_ += pi * std::pow(space.mesh->outer_radius, 3) * b0 * b0 / mu0;
  }

  if (static_cast<int>(interface_.size()) < n || n == 0) eliminate(like);
  forward_ = sources_;
  if (factor_) factor_->forward(forward_);
  const Eigen::Index kept = static_cast<Eigen::Index>(interface_.size());
  loads_ = forward_.bottomRows(kept);
  gram_ = forward_.topRows(n - kept).transpose() * forward_.topRows(n - kept);
}

void Condensed::eliminate(const Condensed* like) {
  // The kept block may be singular by itself (a field-free straight part next to steel): its diagonal is
  // doubled before the factorisation and what was added is taken off the Schur complement again.
  const int kept = static_cast<int>(interface_.size()), gone = static_cast<int>(matrix_.cols()) - kept;
  Eigen::VectorXd doubled(kept);
  for (int i = 0; i < kept; ++i) {
    double& diagonal = matrix_.coeffRef(gone + i, gone + i);
    doubled[i] = diagonal;
    diagonal *= 2;
  }
  factor_ = std::make_unique<SparseCholesky>(matrix_, kept, like ? like->factor_.get() : nullptr);
  if (!factor_->factorise(matrix_))
    throw std::runtime_error("the matrix of the straight laws is not positive definite");
  schur_ = factor_->schur().selfadjointView<Eigen::Lower>();
  schur_.diagonal() -= doubled;
  for (int i = 0; i < kept; ++i) matrix_.coeffRef(gone + i, gone + i) = doubled[i];
}

void Condensed::add_gradient(const Eigen::VectorXd& sources, const Eigen::VectorXd& x,
                             Eigen::VectorXd& g) const {
  Eigen::VectorXd own(unknowns_.size());
  for (std::size_t k = 0; k < unknowns_.size(); ++k) own[static_cast<Eigen::Index>(k)] = x[unknowns_[k]];
  own = matrix_.selfadjointView<Eigen::Lower>() * own - sources_ * sources;
  for (std::size_t k = 0; k < unknowns_.size(); ++k) g[unknowns_[k]] += own[static_cast<Eigen::Index>(k)];
}

Eigen::VectorXd Condensed::stiffness_times(const Eigen::VectorXd& x_interface) const {
  if (is_full()) return schur_ * x_interface;
  return matrix_.selfadjointView<Eigen::Lower>() * x_interface;
}

Eigen::SparseMatrix<double> Condensed::lower_stiffness() const {
  if (!is_full()) return matrix_;
  const Eigen::Index n = schur_.cols();
  Eigen::SparseMatrix<double> lower(n, n);
  lower.reserve(n * (n + 1) / 2);
  for (Eigen::Index j = 0; j < n; ++j) {
    lower.startVec(j);
    for (Eigen::Index i = j; i < n; ++i) lower.insertBack(i, j) = schur_(i, j);
  }
  lower.finalize();
  return lower;
}

Condensed::Carried Condensed::carry(const Eigen::VectorXd& load) const {
  Eigen::MatrixXd all(unknowns_.size(), 1);
  for (std::size_t k = 0; k < unknowns_.size(); ++k) all(k, 0) = load[unknowns_[k]];
  if (factor_) factor_->forward(all);
  const Eigen::Index kept = static_cast<Eigen::Index>(interface_.size());
  return {all.topRows(all.rows() - kept), all.bottomRows(kept)};
}

void Condensed::recover(const Eigen::VectorXd& eliminated, const Eigen::VectorXd& x_interface,
                        Eigen::VectorXd& x) const {
  Eigen::MatrixXd all(unknowns_.size(), 1);
  all << eliminated, x_interface;
  if (factor_) factor_->backward(all);
  for (std::size_t k = 0; k < unknowns_.size(); ++k) x[unknowns_[k]] = all(k, 0);
}

}  // namespace coilpull::detail
