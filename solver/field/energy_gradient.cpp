// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/energy_gradient.hpp"

#include <vector>

#include "solver/fem/element_energy.hpp"
#include "solver/fem/outer_boundary.hpp"

namespace coilpull::detail {

Eigen::VectorXd energy_gradient(const Space& space, const Problem& problem, int outer_terms,
                                const Eigen::VectorXd& currents_A, const Eigen::VectorXd& x) {
  Eigen::VectorXd all = Eigen::VectorXd::Zero(space.dofs.size()), gradient = all;
  all.head(x.size()) = x;
  Eigen::MatrixXd own, pull;
  for (ElementBatch& batch : batches_of(space, std::vector<char>(problem.regions.size(), 1))) {
    const RegionPhysics& region = problem.regions[batch.region];
    const Eigen::MatrixXi dofs = batch.dofs;
    gather(dofs, all, own);
    pull.setZero(own.rows(), own.cols());
    if (region.winding) pull -= currents_A[region.winding->circuit] * winding_load(*region.winding, batch);
    if (is_nonlinear(region))
      SteelBatch(region, std::move(batch)).gradient(own, pull);
    else
      linear_gradient(region, batch, own, pull);
    scatter(dofs, pull, gradient);
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
