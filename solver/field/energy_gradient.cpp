// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/energy_gradient.hpp"

#include <vector>

#include "solver/fem/element_energy.hpp"
#include "solver/fem/outer_boundary.hpp"

namespace coilpull::detail {

Eigen::VectorXd energy_gradient(const Space& space, const Problem& problem, int outer_terms,
                                const Eigen::VectorXd& currents_A, const Eigen::VectorXd& x) {
  const int size = basis_size(space.dofs.order());
  Eigen::VectorXd all = Eigen::VectorXd::Zero(space.dofs.size()), gradient = all;
  all.head(x.size()) = x;
  std::vector<int> dofs(size);
  ElementFields fields;
  LinearElement linear;
  Eigen::VectorXd own(size), pull(size), turns(size);
  for (Eigen::Index t = 0; t < space.topology->triangles.cols(); ++t) {
    const RegionPhysics& region = problem.regions[space.mesh->region_of[t]];
    space.dofs.of_triangle(static_cast<int>(t), dofs.data());
    for (int i = 0; i < size; ++i) own[i] = all[dofs[i]];
    evaluate_fields(space, static_cast<int>(t), fields);
    if (is_nonlinear(region)) {
      pull.setZero();
      SteelElement(std::get<SoftLaw>(region.material), fields).gradient(own, pull);
    } else {
      linear_element(region, fields, linear);
      pull.noalias() = linear.stiffness * own - linear.magnet_load;
    }
    if (region.winding) {
      winding_load(*region.winding, fields, turns);
      pull -= currents_A[region.winding->circuit] * turns;
    }
    for (int i = 0; i < size; ++i) gradient[dofs[i]] += pull[i];
  }
  if (space.mesh->outer_edges.cols() == 0) return gradient;
  const OuterBoundary outer = outer_boundary(space, outer_terms);
  Eigen::VectorXd on_circle(outer.dofs.size());
  for (std::size_t i = 0; i < outer.dofs.size(); ++i) on_circle[i] = all[outer.dofs[i]];
  on_circle = outer.stiffness * on_circle - problem.background_bz_T * outer.per_background_T;
  for (std::size_t i = 0; i < outer.dofs.size(); ++i) gradient[outer.dofs[i]] += on_circle[i];
  return gradient;
}

}  // namespace coilpull::detail
