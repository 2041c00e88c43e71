// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/quality.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "meshing/detail/plane.hpp"

namespace coilpull {

using namespace detail;

double triangle_quality(Point a, Point b, Point c) {
  const double ab = norm(b - a), bc = norm(c - b), ca = norm(a - c);
  const double twice_area = cross(b - a, c - a);
  const double below = (ab + bc + ca) * ab * bc * ca;
  return below > 0 ? 4 * twice_area * twice_area / below : 0;
}

MeshQuality quality(const Mesh& mesh) {
  if (mesh.triangles.cols() == 0) throw std::invalid_argument("quality of a mesh without triangles");
  MeshQuality result = {2, -1, pi};
  for (int t = 0; t < static_cast<int>(mesh.triangles.cols()); ++t) {
    Point p[3];
    for (int k = 0; k < 3; ++k) {
      const auto node = mesh.nodes.col(mesh.triangles(k, t));
      p[k] = {node.x(), node.y()};
    }
    const double one = triangle_quality(p[0], p[1], p[2]);
    if (one < result.worst) {
      result.worst = one;
      result.worst_triangle = t;
    }
    for (int k = 0; k < 3; ++k) {
      const Point u = p[(k + 1) % 3] - p[k], v = p[(k + 2) % 3] - p[k];
      result.smallest_angle = std::min(result.smallest_angle, std::atan2(std::abs(cross(u, v)), dot(u, v)));
    }
  }
  return result;
}

}  // namespace coilpull
