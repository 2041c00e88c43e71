// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/force_shares.hpp"

#include <algorithm>

#include "solver/fem/element_energy.hpp"

namespace coilpull {

std::vector<SharePlace> places_of_unknowns(const detail::Space& space, const Problem& problem, int first) {
  const auto middle = [&](std::initializer_list<int> nodes) {
    Eigen::Vector2d sum = Eigen::Vector2d::Zero();
    for (const int node : nodes) sum += space.mesh->nodes.col(node);
    sum /= static_cast<double>(nodes.size());
    return Point{sum.x(), sum.y()};
  };
  std::vector<SharePlace> places(space.dofs.size());
  std::vector<int> dofs(detail::basis_size(space.dofs.order()));
  for (Eigen::Index t = 0; t < space.topology->triangles.cols(); ++t) {
    const auto node = space.topology->triangles.col(t);
    space.dofs.of_triangle(static_cast<int>(t), dofs.data());
    for (int i = 0; i < 3; ++i) places[dofs[i]].at = middle({node[i]});
    for (int degree = 2; degree <= space.dofs.order(); ++degree) {
      const int of_degree = detail::basis_size(degree - 1);
      places[dofs[of_degree]].at = middle({node[0], node[1]});
      places[dofs[of_degree + 1]].at = middle({node[1], node[2]});
      places[dofs[of_degree + 2]].at = middle({node[0], node[2]});
      for (int i = of_degree + 3; i < detail::basis_size(degree); ++i)
        places[dofs[i]].at = middle({node[0], node[1], node[2]});
    }
    double mean = 0;
    for (int i = 0; i < 3; ++i)
      mean += (space.mesh->nodes.col(node[i]) - space.mesh->nodes.col(node[(i + 1) % 3])).norm() / 3;
    for (const int dof : dofs) places[dof].size = std::max(places[dof].size, mean);
    if (detail::is_nonlinear(problem.regions[space.mesh->region_of[t]]))
      for (const int dof : dofs) places[dof].saturable = true;
  }
  return {places.begin() + first, places.end()};
}

}  // namespace coilpull
