// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/condensed.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "materials/constants.hpp"
#include "solver/fem/element_energy.hpp"
#include "solver/fem/sparse_pattern.hpp"

namespace coilpull::detail {
namespace {

enum Side : char { nowhere = 0, straight = 1, steel = 2 };  // bits: which kind of triangle holds an unknown

}  // namespace

Condensed::Condensed(const Space& space, const Problem& problem, int outer_terms) {
  const int triangles = static_cast<int>(space.topology->triangles.cols()),
            size = basis_size(space.dofs.order());
  const auto region_of = [&](int t) -> const RegionPhysics& {
    return problem.regions[space.mesh->region_of[t]];
  };
  std::vector<char> side(space.dofs.size(), nowhere);
  std::vector<int> dofs(size), members;
  for (int t = 0; t < triangles; ++t) {
    space.dofs.of_triangle(t, dofs.data());
    for (const int dof : dofs) side[dof] |= is_nonlinear(region_of(t)) ? steel : straight;
  }
  std::vector<int> local(space.dofs.size(), -1);
  for (const char wanted : {char(straight), char(straight | steel)})
    for (int i = 0; i < space.dofs.size(); ++i)
      if (side[i] == wanted) {
        if (wanted != straight) interface_.push_back(i);
        local[i] = static_cast<int>(unknowns_.size());
        unknowns_.push_back(i);
      }
  const int n = static_cast<int>(unknowns_.size()), kept = static_cast<int>(interface_.size()),
            gone = n - kept;
  const int sources = problem.circuits + 1;
  Eigen::MatrixXd load = Eigen::MatrixXd::Zero(n, sources);

  Groups groups;
  std::vector<int> linear_triangles;
  for (int t = 0; t < triangles; ++t) {
    if (is_nonlinear(region_of(t))) continue;
    linear_triangles.push_back(t);
    space.dofs.of_triangle(t, dofs.data());
    for (int& dof : dofs) dof = local[dof];
    groups.add(dofs.data(), dofs.size());
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
  Eigen::SparseMatrix<double> matrix = symmetric_pattern(n, groups);

  ElementFields fields;
  LinearElement element;
  Eigen::VectorXd turns;
  for (std::size_t k = 0; k < linear_triangles.size(); ++k) {
    const RegionPhysics& region = region_of(linear_triangles[k]);
    evaluate_fields(space, linear_triangles[k], fields);
    linear_element(region, fields, element);
    const int* at = groups.begin(static_cast<int>(k));
    add_at(matrix, places_of(matrix, at, size).data(), element.stiffness);
    for (int i = 0; i < size; ++i) load(at[i], sources - 1) += element.magnet_load[i];
    constant_ += element.constant;
    if (!region.winding) continue;
    winding_load(*region.winding, fields, turns);
    for (int i = 0; i < size; ++i) load(at[i], region.winding->circuit) += turns[i];
  }
  if (!members.empty()) {
    add_at(matrix, places_of(matrix, members.data(), static_cast<int>(members.size())).data(),
           outer.stiffness);
    for (std::size_t i = 0; i < members.size(); ++i)
      load(members[i], sources - 1) += problem.background_bz_T * outer.per_background_T[i];
    // Empty space in the background has the energy -pi R^3 B0^2 / mu0 in these terms: count from there.
    const double b0 = problem.background_bz_T;
    constant_ += pi * std::pow(space.mesh->outer_radius, 3) * b0 * b0 / mu0;
  }

  // The kept block may be singular by itself (a field-free straight part next to steel): its diagonal is
  // doubled before the factorisation and what was added is taken off the Schur complement again.
  Eigen::VectorXd doubled(kept);
  for (int i = 0; i < kept; ++i) {
    double& diagonal = matrix.coeffRef(gone + i, gone + i);
    doubled[i] = diagonal;
    diagonal *= 2;
  }
  factor_ = std::make_unique<SparseCholesky>(matrix, kept);
  if (!factor_->factorise(matrix))
    throw std::runtime_error("the matrix of the straight laws is not positive definite");
  schur_ = factor_->schur().selfadjointView<Eigen::Lower>();
  schur_.diagonal() -= doubled;
  factor_->forward(load);
  forward_ = std::move(load);
  loads_ = forward_.bottomRows(kept);
  gram_ = forward_.topRows(gone).transpose() * forward_.topRows(gone);
}

Condensed::Carried Condensed::carry(const Eigen::VectorXd& load) const {
  Eigen::MatrixXd all(unknowns_.size(), 1);
  for (std::size_t k = 0; k < unknowns_.size(); ++k) all(k, 0) = load[unknowns_[k]];
  factor_->forward(all);
  const Eigen::Index kept = static_cast<Eigen::Index>(interface_.size());
  return {all.topRows(all.rows() - kept), all.bottomRows(kept)};
}

void Condensed::recover(const Eigen::VectorXd& eliminated, const Eigen::VectorXd& x_interface,
                        Eigen::VectorXd& x) const {
  Eigen::MatrixXd all(unknowns_.size(), 1);
  all << eliminated, x_interface;
  factor_->backward(all);
  for (std::size_t k = 0; k < unknowns_.size(); ++k) x[unknowns_[k]] = all(k, 0);
}

}  // namespace coilpull::detail
