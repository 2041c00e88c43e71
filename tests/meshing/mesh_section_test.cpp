// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/mesh_section.hpp"

#include <cmath>
#include <map>
#include <set>

#include "meshing/quality.hpp"
#include "tests/meshing/sections.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// Straight outlines: the triangles fill each part up to rounding.
void check_areas(const Mesh& mesh, const Section& section) {
  for (const Region& part : section.parts) {
    INFO(part.name);
    CHECK(meshed_area(mesh, part.name) == near(area(part.outline), 1e-12));
  }
}

/// Every drawn corner is a node, to the last bit.
void check_corners(const Mesh& mesh, const Section& section) {
  for (const Region& part : section.parts)
    for (const Edge& edge : part.outline.edges) CHECK(has_node(mesh, edge.from));
}

/// Each edge has two triangles, but for those on the axis and on the half circle, which have one.
void check_conforming(const Mesh& mesh) {
  std::map<std::pair<int, int>, int> count;
  for (int t = 0; t < mesh.triangles.cols(); ++t)
    for (int k = 0; k < 3; ++k) ++count[std::minmax(mesh.triangles(k, t), mesh.triangles((k + 1) % 3, t))];
  std::set<std::pair<int, int>> outer;
  for (int i = 0; i < mesh.outer_edges.cols(); ++i)
    outer.insert(std::minmax(mesh.outer_edges(0, i), mesh.outer_edges(1, i)));
  for (const auto& [edge, triangles] : count) {
    const bool on_axis = mesh.nodes(0, edge.first) == 0 && mesh.nodes(0, edge.second) == 0;
    const int expected = on_axis || outer.count(edge) > 0 ? 1 : 2;
    if (triangles != expected)
      FAIL_CHECK("edge " << edge.first << "-" << edge.second << " has " << triangles);
  }
  for (const auto& edge : outer) CHECK(count.count(edge) == 1);
  CHECK(mesh.nodes.row(0).minCoeff() == 0);
}

Mesh checked_mesh(const Section& section) {
  Mesher mesher;
  Mesh mesh = mesher.mesh(section);
  check_conforming(mesh);
  check_corners(mesh, section);
  CHECK(quality(mesh).worst >= 0.1);
  return mesh;
}

}  // namespace

TEST_CASE("a small device is filled with triangles, part by part") {
  const Section section = rod_winding_magnet();
  const Mesh mesh = checked_mesh(section);
  check_areas(mesh, section);
  CHECK(mesh.region_names == std::vector<std::string>{"rod", "winding", "plate", "magnet", "air"});
  CHECK(mesh.outer_radius == 0.05);
  CHECK(mesh.outer_edges.cols() >= 6);  // at most 30 degrees each
}

TEST_CASE("air alone is a section too") {
  const Mesh mesh = checked_mesh(in_air({}));
  CHECK(mesh.region_names == std::vector<std::string>{"air"});
}

TEST_CASE("nodes of the half circle lie on it, one after the other from the lowest up") {
  Section section = rod_winding_magnet();
  section.outer = {0.003, 0.04};
  const Mesh mesh = checked_mesh(section);
  for (int i = 0; i < mesh.outer_edges.cols(); ++i) {
    const Eigen::Vector2d a = mesh.nodes.col(mesh.outer_edges(0, i)),
                          b = mesh.nodes.col(mesh.outer_edges(1, i));
    CHECK((a - Eigen::Vector2d(0, 0.003)).norm() == near(0.04, 1e-15));
    CHECK(b.y() > a.y());
    if (i > 0) CHECK(mesh.outer_edges(0, i) == mesh.outer_edges(1, i - 1));
  }
  CHECK(has_node(mesh, {0, 0.003 - 0.04}));
  CHECK(has_node(mesh, {0, 0.003 + 0.04}));
}

TEST_CASE("glued plates of different length share the nodes of the seam") {
  const Section section = in_air({block("plate", 0, 10, 0, 2), block("disc", 0, 6, 2, 5)});
  const Mesh mesh = checked_mesh(section);
  check_areas(mesh, section);
  CHECK(nodes_shared(mesh, "plate", "disc") >= 7);  // 6 mm in edges of 1 mm
}

TEST_CASE("three parts that meet in a T share the node where they meet") {
  const Section section =
      in_air({block("yoke", 2, 8, 0, 2), block("left", 2, 5, 2, 6), block("right", 5, 8, 2, 6)});
  const Mesh mesh = checked_mesh(section);
  check_areas(mesh, section);
  CHECK(has_node(mesh, {5 / 1e3, 2 / 1e3}));
  CHECK(nodes_shared(mesh, "left", "right") >= 5);
  CHECK(nodes_shared(mesh, "yoke", "left") >= 4);
}

TEST_CASE("parts that meet at a corner only share that node") {
  const Section section = in_air({block("low", 2, 5, 0, 2), block("high", 5, 8, 2, 6)});
  const Mesh mesh = checked_mesh(section);
  check_areas(mesh, section);
  CHECK(nodes_shared(mesh, "low", "high") == 1);
}

TEST_CASE("a pot core of three pieces closes an air cavity around its winding") {
  const Section section =
      in_air({block("bottom", 0, 12, -8, -5), block("post", 0, 4, -5, 5), block("wall", 9, 12, -5, 5),
              block("lid", 0, 12, 5, 8), block("winding", 5, 8, -4, 4)});
  const Mesh mesh = checked_mesh(section);
  check_areas(mesh, section);
  // the cavity is air as well: half disc less the parts (the half circle is meshed with chords)
  double parts = 0;
  for (const Region& part : section.parts) parts += area(part.outline);
  double disc = 0;
  for (int i = 0; i < mesh.outer_edges.cols(); ++i) {
    const Eigen::Vector2d a = mesh.nodes.col(mesh.outer_edges(0, i)),
                          b = mesh.nodes.col(mesh.outer_edges(1, i));
    disc += (a.x() * b.y() - a.y() * b.x()) / 2;
  }
  CHECK(meshed_area(mesh, "air") == near(disc - parts, 1e-12));
  CHECK(nodes_shared(mesh, "winding", "air") ==
        nodes_shared(mesh, "winding", "winding") - [&] {  // nodes inside the winding
          int inside = 0;
          for (int i = 0; i < mesh.nodes.cols(); ++i)
            inside += mesh.nodes(0, i) > 5 / 1e3 && mesh.nodes(0, i) < 8 / 1e3 &&
                      std::abs(mesh.nodes(1, i)) < 4 / 1e3;
          return inside;
        }());
}

TEST_CASE("a rod that fills the bore of a tube shares the bore's nodes") {
  const Section section = in_air({block("tube", 4, 7, -6, 6), block("rod", 0, 4, -9, 3)});
  const Mesh mesh = checked_mesh(section);
  check_areas(mesh, section);
  CHECK(nodes_shared(mesh, "tube", "rod") >= 10);  // 9 mm in edges of 1 mm
}

TEST_CASE("a rod in a tube with a gap of a hundred-thousandth is meshed when the sizes resolve it") {
  // 0.5 um in a half circle of 50 mm; over 0.1 mm of length, so that the mesh stays small
  const double gap = 0.5e-6, r = 0.01;
  Section section = {{{"rod", rectangle(0.0099, r, 0, 1e-4)}, {"tube", rectangle(r + gap, 0.0101, 0, 1e-4)}},
                     {0, 0.05},
                     {8e-3, {{{r, 0}, {r, 1e-4}, gap, 0.3}}}};
  const Mesh mesh = checked_mesh(section);
  for (const Region& part :
       section.parts)  // corners at 10 mm carry 1e-18 m; 0.1 mm squares: 1e-13 relative and more
    CHECK(meshed_area(mesh, part.name) == near(area(part.outline), 1e-12));
}

TEST_CASE("a rod in a tube with a gap of 0.01 mm is meshed at a size of 10 mm") {
  Section section = {{block("rod", 0, 9.99, -10, 10), block("tube", 10, 14, -10, 10)}, {0, 0.05}, {8e-3, {}}};
  section.sizes.sources.push_back({{0.01, -0.01}, {0.01, 0.01}, 2e-5, 0.3});
  check_areas(checked_mesh(section), section);
}

TEST_CASE("a gap and a wall thinner than the sizes asked for are meshed as fine as they need") {
  const Section section = {
      {block("rod", 0, 9.9, -10, 10), block("tube", 10, 14, -10, 10), block("foil", 14.05, 14.1, -5, 5)},
      {0, 0.05},
      {4e-3, {}}};
  MesherOptions options;
  options.quality_above = 0.1;
  const Mesh mesh = Mesher(options).mesh(section);
  CHECK(quality(mesh).worst >= 0.1);
  check_areas(mesh, section);
  double longest = 0;
  for (int t = 0; t < mesh.triangles.cols(); ++t)
    for (int k = 0; k < 3; ++k) {
      const Eigen::Vector2d a = mesh.nodes.col(mesh.triangles(k, t)),
                            b = mesh.nodes.col(mesh.triangles((k + 1) % 3, t));
      if (a.x() == 9.9 / 1e3 && b.x() == 9.9 / 1e3) longest = std::max(longest, (b - a).norm());
    }
  CHECK(longest < 6e-4);  // sqrt(3 / 0.1) = 5.5 gaps of 0.1 mm
  CHECK(longest > 2e-4);  // but no finer without need
  CHECK(mesh.triangles.cols() < 5000);
}

TEST_CASE("a ball of two arcs has its nodes on the sphere and its edges listed as arcs") {
  const Section section = in_air({{"ball", ball(0.008, 0.002)}});
  const Mesh mesh = checked_mesh(section);
  int on_ball = 0;
  double polygon = 0;
  for (const ArcEdge& arc : mesh.arcs) {
    if (arc.centre != Point{0, 0.002}) continue;
    ++on_ball;
    const Eigen::Vector2d centre(0, 0.002), a = mesh.nodes.col(arc.a) - centre,
                                            b = mesh.nodes.col(arc.b) - centre;
    CHECK(a.norm() == near(0.008, 1e-14));
    CHECK(b.norm() == near(0.008, 1e-14));
    polygon += std::abs(a.x() * b.y() - a.y() * b.x()) / 2;
  }
  CHECK(on_ball >= 25);  // pi * 8 mm in edges of 1 mm
  CHECK(meshed_area(mesh, "ball") == near(polygon, 1e-12));
  CHECK(static_cast<int>(mesh.arcs.size()) == on_ball + static_cast<int>(mesh.outer_edges.cols()));
}

TEST_CASE("a ball in a socket: arcs in contact share nodes, arcs a hair apart do not cross") {
  const Point centre{0, 0}, low{0, -0.008}, side{0.008, 0};
  const Region socket = {"socket",
                         {{{{0, -0.012}, {0.012, -0.012}},
                           {{0.012, -0.012}, {0.012, 0}},
                           {{0.012, 0}, side},
                           {side, low, centre},
                           {low, {0, -0.012}}}}};
  Section section = in_air({{"ball", ball(0.008, 0)}, socket});
  Mesh mesh = checked_mesh(section);
  CHECK(nodes_shared(mesh, "ball", "socket") >= 13);  // a quarter of 2 pi 8 mm in edges of 1 mm
  // Chords of 30 degrees would cut 0.27 mm off the ball; the gap is 0.05 mm.
  section.parts[0].outline = ball(0.00795, 0);
  section.sizes = {8e-3, {}};
  mesh = checked_mesh(section);
  CHECK(nodes_shared(mesh, "ball", "socket") == 0);
}

TEST_CASE("edges follow the sizes asked for, steep grading included") {
  Section section = {{block("core", 0, 10, -10, 10)}, {0, 0.05}, {6e-3, {}}};
  section.sizes.sources.push_back({{0.01, 0.01}, {0.01, 0.01}, 2e-5, 0.25});  // 300 to 1
  const Mesh mesh = checked_mesh(section);
  double longest = 0, log_sum = 0;
  int edges = 0, far_short = 0;
  for (int t = 0; t < mesh.triangles.cols(); ++t)
    for (int k = 0; k < 3; ++k) {
      const Eigen::Vector2d a = mesh.nodes.col(mesh.triangles(k, t)),
                            b = mesh.nodes.col(mesh.triangles((k + 1) % 3, t));
      const Eigen::Vector2d middle = (a + b) / 2;
      const double ratio = (b - a).norm() / size_at(section.sizes, {middle.x(), middle.y()});
      longest = std::max(longest, ratio);
      log_sum += std::log(ratio);
      far_short += ratio < 0.5;
      ++edges;
    }
  // The field changes by a quarter over one edge, and a mesher places whole edges: a factor 2 either way.
  CHECK(longest < 2);
  CHECK(std::exp(log_sum / edges) > 0.7);
  CHECK(std::exp(log_sum / edges) < 1.2);
  CHECK(far_short < 0.02 * edges);
}

TEST_CASE("corners are meshed down to a millionth of the half circle, however steeply the sizes grow") {
  Section section = rod_winding_magnet();
  for (const Region& part : section.parts)
    for (const Edge& edge : part.outline.edges)
      section.sizes.sources.push_back({edge.from, edge.from, 5e-8, 1.0});
  const Mesh mesh = checked_mesh(section);
  check_areas(mesh, section);
  for (const Region& part : section.parts) {
    const Point corner = part.outline.edges[1].from;
    double shortest = 1;
    for (int i = 0; i < mesh.nodes.cols(); ++i) {
      const double away = std::hypot(mesh.nodes(0, i) - corner.r, mesh.nodes(1, i) - corner.z);
      if (away > 0) shortest = std::min(shortest, away);
    }
    CHECK(shortest < 1e-7);
    CHECK(shortest > 1e-8);
  }
}

TEST_CASE("the same section gives the same mesh to the last bit, across processes and after other meshes") {
  const Section section = rod_winding_magnet();
  Mesher one, other;
  const Mesh first = one.mesh(section);
  CHECK(same_bits(first, one.mesh(section)));
  other.mesh(in_air({{"ball", ball(0.008, 0)}}));
  CHECK(same_bits(first, other.mesh(section)));
}

TEST_CASE("another seed gives another mesh of the same sizes") {
  const Section section = rod_winding_magnet();
  MesherOptions options;
  const Mesh first = Mesher(options).mesh(section);
  for (const unsigned seed : {2u, 3u}) {
    options.seed = seed;
    const Mesh second = Mesher(options).mesh(section);
    check_areas(second, section);
    CHECK(same_bits(second, Mesher(options).mesh(section)));
    int common = 0;
    for (int i = 0; i < second.nodes.cols(); ++i)
      common += has_node(first, {second.nodes(0, i), second.nodes(1, i)});
    CHECK(common < second.nodes.cols() / 5);  // the drawn corners, and single edges between them
    CHECK(static_cast<double>(second.triangles.cols()) ==
          near(static_cast<double>(first.triangles.cols()), 0.2));
  }
}

TEST_CASE("numbers of neighbouring nodes are near each other") {
  const Mesh mesh = Mesher().mesh(rod_winding_magnet(5e-4));
  int widest = 0;
  for (int t = 0; t < mesh.triangles.cols(); ++t)
    widest = std::max(widest, mesh.triangles.col(t).maxCoeff() - mesh.triangles.col(t).minCoeff());
  CHECK(widest < mesh.nodes.cols() / 4);  // a random numbering reaches nearly all of them
}
