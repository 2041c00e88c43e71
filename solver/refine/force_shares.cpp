// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/force_shares.hpp"

namespace coilpull {

std::vector<Point> places_of_unknowns(const detail::Space& space) {
  const auto middle = [&](std::initializer_list<int> nodes) {
    Eigen::Vector2d sum = Eigen::Vector2d::Zero();
    for (const int node : nodes) sum += space.mesh->nodes.col(node);
    sum /= static_cast<double>(nodes.size());
    return Point{sum.x(), sum.y()};
  };
  std::vector<Point> places(space.dofs.size());
  std::vector<int> dofs(detail::basis_size(space.dofs.order()));
  for (Eigen::Index t = 0; t < space.topology->triangles.cols(); ++t) {
    const auto node = space.topology->triangles.col(t);
    space.dofs.of_triangle(static_cast<int>(t), dofs.data());
    for (int i = 0; i < 3; ++i) places[dofs[i]] = middle({node[i]});
    for (int degree = 2; degree <= space.dofs.order(); ++degree) {
      const int first = detail::basis_size(degree - 1);
      places[dofs[first]] = middle({node[0], node[1]});
      places[dofs[first + 1]] = middle({node[1], node[2]});
      places[dofs[first + 2]] = middle({node[0], node[2]});
      for (int i = first + 3; i < detail::basis_size(degree); ++i)
        places[dofs[i]] = middle({node[0], node[1], node[2]});
    }
  }
  return places;
}

}  // namespace coilpull
