// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/locate.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "meshing/detail/orientation.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull {
namespace {

constexpr int leaf_size = 4;

double distance_to_box(const Eigen::Vector2d& p, const Eigen::Vector2d& low, const Eigen::Vector2d& high) {
  return (low - p).cwiseMax(p - high).cwiseMax(0.0).norm();
}

Point point(const Eigen::Matrix2Xd& nodes, int i) { return {nodes(0, i), nodes(1, i)}; }

double distance_to_triangle(Point a, Point b, Point c, Point p) {
  using namespace detail;
  if (orientation(a, b, p) >= 0 && orientation(b, c, p) >= 0 && orientation(c, a, p) >= 0) return 0;
  return std::min({to_segment(a, b, p), to_segment(b, c, p), to_segment(c, a, p)});
}

Eigen::Vector3d weights_of(Point a, Point b, Point c, Point p) {
  using namespace detail;
  const double all = cross(b - a, c - a);
  const double at_b = cross(p - a, c - a) / all, at_c = cross(b - a, p - a) / all;
  return {1 - at_b - at_c, at_b, at_c};
}

}  // namespace

Locator::Locator(const Mesh& mesh)
    : nodes_(mesh.nodes),
      triangles_(mesh.triangles),
      order_(static_cast<std::size_t>(mesh.triangles.cols())) {
  if (order_.empty()) throw std::invalid_argument("Locator: a mesh without triangles");
  std::iota(order_.begin(), order_.end(), 0);
  tree_.reserve(order_.size());
  build(0, static_cast<int>(order_.size()));
}

int Locator::build(int first, int last) {
  const int self = static_cast<int>(tree_.size());
  const double far = std::numeric_limits<double>::infinity();
  Node node = {Eigen::Vector2d::Constant(far), Eigen::Vector2d::Constant(-far), first, last, -1};
  for (int i = first; i < last; ++i)
    for (int k = 0; k < 3; ++k) {
      const auto corner = nodes_.col(triangles_(k, order_[i]));
      node.low = node.low.cwiseMin(corner);
      node.high = node.high.cwiseMax(corner);
    }
  tree_.push_back(node);
  if (last - first <= leaf_size) return self;
  const int axis = node.high.x() - node.low.x() > node.high.y() - node.low.y() ? 0 : 1;
  const int middle = (first + last) / 2;
  const auto along = [&](int t) {
    return nodes_(axis, triangles_(0, t)) + nodes_(axis, triangles_(1, t)) + nodes_(axis, triangles_(2, t));
  };
  std::nth_element(order_.begin() + first, order_.begin() + middle, order_.begin() + last,
                   [&](int a, int b) { return along(a) < along(b); });
  build(first, middle);
  const int second = build(middle, last);
  tree_[self].second_child = second;
  return self;
}

MeshPlace Locator::locate(Point at) const {
  if (!std::isfinite(at.r) || !std::isfinite(at.z))
    throw std::invalid_argument("locate: the point is not finite");
  const Eigen::Vector2d p{at.r, at.z};
  MeshPlace best = {-1, Eigen::Vector3d::Zero(), std::numeric_limits<double>::infinity()};
  std::vector<int> open = {0};
  while (!open.empty()) {
    const int index = open.back();
    const Node& node = tree_[index];
    open.pop_back();
    if (distance_to_box(p, node.low, node.high) > best.distance) continue;
    if (node.second_child < 0) {
      for (int i = node.first; i < node.last; ++i) {
        const int t = order_[i];
        const double away =
            distance_to_triangle(point(nodes_, triangles_(0, t)), point(nodes_, triangles_(1, t)),
                                 point(nodes_, triangles_(2, t)), at);
        if (away < best.distance || (away == best.distance && t < best.triangle))
          best = {t, best.weights, away};
      }
      continue;
    }
    const int one = index + 1, two = node.second_child;
    const bool one_first = distance_to_box(p, tree_[one].low, tree_[one].high) <=
                           distance_to_box(p, tree_[two].low, tree_[two].high);
    open.push_back(one_first ? two : one);
    open.push_back(one_first ? one : two);
  }
  const auto corners = triangles_.col(best.triangle);
  best.weights =
      weights_of(point(nodes_, corners[0]), point(nodes_, corners[1]), point(nodes_, corners[2]), at);
  return best;
}

}  // namespace coilpull
