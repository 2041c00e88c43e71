// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/meshing/sections.hpp"

#include <algorithm>
#include <set>

#include "meshing/detail/edge_geometry.hpp"

namespace coilpull {

Section in_air(std::vector<Region> parts, double size) {
  Section section = {std::move(parts), {0, 0.05}, {8e-3, {}}};
  for (const Region& part : section.parts)
    for (const Edge& edge : part.outline.edges) {
      const int pieces = edge.centre ? 16 : 1;
      for (double i = 0; i < pieces; ++i)
        section.sizes.sources.push_back(
            {detail::point_at(edge, i / pieces), detail::point_at(edge, (i + 1) / pieces), size, 0.3});
    }
  return section;
}

Outline ball(double radius, double z) {
  const Point bottom{0, z - radius}, side{radius, z}, top{0, z + radius}, centre{0, z};
  return {{{bottom, side, centre}, {side, top, centre}, {top, bottom}}};
}

Outline triangle(Point a, Point b, Point c) { return {{{a, b}, {b, c}, {c, a}}}; }

Region block(std::string name, double r_from, double r_to, double z_from, double z_to) {
  return {std::move(name), rectangle(r_from / 1e3, r_to / 1e3, z_from / 1e3, z_to / 1e3)};
}

Region ring(std::string name, Point centre, Point corner) {
  const auto metres = [](double r, double z) { return Point{1e-3 * r, 1e-3 * z}; };
  const Point middle = metres(centre.r, centre.z), from = metres(corner.r, corner.z),
              to = metres(2 * centre.r - corner.r, 2 * centre.z - corner.z);
  return {std::move(name), {{{from, to, middle}, {to, from, middle}}}};
}

Section rod_winding_magnet(double size) {
  return in_air({block("rod", 0, 6, -14, 10), block("winding", 7, 12, -10, 10),
                 block("plate", 6.5, 14, -14, -11), block("magnet", 0, 5, 13, 17)},
                size);
}

double meshed_area(const Mesh& mesh, const std::string& region) {
  double sum = 0;
  for (int t = 0; t < mesh.triangles.cols(); ++t) {
    if (mesh.region_names[mesh.region_of[t]] != region) continue;
    const Eigen::Vector2d a = mesh.nodes.col(mesh.triangles(0, t));
    const Eigen::Vector2d b = mesh.nodes.col(mesh.triangles(1, t)) - a,
                          c = mesh.nodes.col(mesh.triangles(2, t)) - a;
    sum += (b.x() * c.y() - b.y() * c.x()) / 2;
  }
  return sum;
}

int nodes_shared(const Mesh& mesh, const std::string& a, const std::string& b) {
  std::set<int> of_a, of_b;
  for (int t = 0; t < mesh.triangles.cols(); ++t)
    for (int k = 0; k < 3; ++k) {
      if (mesh.region_names[mesh.region_of[t]] == a) of_a.insert(mesh.triangles(k, t));
      if (mesh.region_names[mesh.region_of[t]] == b) of_b.insert(mesh.triangles(k, t));
    }
  return static_cast<int>(std::count_if(of_a.begin(), of_a.end(), [&](int n) { return of_b.count(n) > 0; }));
}

bool has_node(const Mesh& mesh, Point at) {
  for (int i = 0; i < mesh.nodes.cols(); ++i)
    if (mesh.nodes(0, i) == at.r && mesh.nodes(1, i) == at.z) return true;
  return false;
}

bool same_bits(const Mesh& a, const Mesh& b) {
  return a.nodes.cols() == b.nodes.cols() && a.triangles.cols() == b.triangles.cols() && a.nodes == b.nodes &&
         a.triangles == b.triangles && a.region_of == b.region_of;
}

}  // namespace coilpull
