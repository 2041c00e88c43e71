// SPDX-License-Identifier: GPL-3.0-or-later
// Curved triangles: the volumes of a ball and of all the mesh, a larger ball, against 4/3 pi R^3.
#include <algorithm>
#include <cmath>
#include <memory>

#include "materials/constants.hpp"
#include "meshing/mesh_section.hpp"
#include "solver/fem/jacobian_bound.hpp"
#include "solver/fem/space.hpp"
#include "tests/near.hpp"

namespace coilpull {

namespace {

constexpr double ball_radius = 0.010, outer_radius = 0.014;  // [m]

Mesh ball_in_air(Mesher& mesher, double edge_length) {
  const Point centre{0, 0}, bottom{0, -ball_radius}, right{ball_radius, 0}, top{0, ball_radius};
  const Outline ball{{{bottom, right, centre}, {right, top, centre}, {top, bottom}}};
  return mesher.mesh({{{"ball", ball}}, {0, outer_radius}, {edge_length, {}}});
}

struct Volumes {
  double ball_error, all_error;  ///< relative
  double ball_arc, all_arc;      ///< the longest edge on either circle [rad]
};

Volumes volumes_of(const Mesh& given, int order) {
  const auto mesh = std::make_shared<const Mesh>(given);
  const auto topology = std::make_shared<const detail::Topology>(detail::topology_of(*mesh));
  const detail::Space space = detail::make_space(mesh, topology, order, ball_radius / 3);
  double ball = 0, all = 0;
  detail::MappedRule rule;
  for (int t = 0; t < mesh->triangles.cols(); ++t) {
    detail::map_rule(space.geometry, t, space.rule_of[t], rule);
    all += rule.weight.sum();
    if (mesh->region_of[t] == 0) ball += rule.weight.sum();
    REQUIRE(detail::keeps_orientation(space.geometry, t));
  }
  double ball_arc = 0, all_arc = 0;
  for (const ArcEdge& arc : mesh->arcs) {
    const double radius = mesh->nodes.col(arc.a).norm();
    const double angle =
        2 * std::asin((mesh->nodes.col(arc.a) - mesh->nodes.col(arc.b)).norm() / (2 * radius));
    double& longest = radius < 1.1 * ball_radius ? ball_arc : all_arc;
    longest = std::max(longest, angle);
  }
  const auto exact = [](double radius) { return 4 * pi / 3 * std::pow(radius, 3); };
  return {ball / exact(ball_radius) - 1, all / exact(outer_radius) - 1, ball_arc, all_arc};
}

double observed_order(double coarse, double fine, double coarse_arc, double fine_arc) {
  return std::log(std::fabs(coarse / fine)) / std::log(coarse_arc / fine_arc);
}

}  // namespace

TEST_CASE("the volume of a ball converges with order p + 1 or better when triangles have degree p") {
  Mesher mesher;
  const Mesh coarse = ball_in_air(mesher, 5e-3), fine = ball_in_air(mesher, 2.5e-3);
  for (int order = 1; order <= 5; ++order) {
    const int degree = std::max(order, 2);  // of the triangles: a straight-sided order 1 is not used
    const Volumes first = volumes_of(coarse, order), second = volumes_of(fine, order);
    INFO("order " << order << ": " << first.ball_error << " then " << second.ball_error << ", all "
                  << first.all_error << " then " << second.all_error);
    // a fifth of an order of grace: the arcs may be cut into unequal lengths
    CHECK(observed_order(first.ball_error, second.ball_error, first.ball_arc, second.ball_arc) >
          degree + 0.8);
    CHECK(observed_order(first.all_error, second.all_error, first.all_arc, second.all_arc) > degree + 0.8);
  }
}

TEST_CASE("at order 4 on eight edges of 22.5 degrees a ball's volume is good to 1e-7") {
  // Chords would miss x^2/6 or so of the volume, 2 percent.
  Mesher mesher;
  const Volumes volumes = volumes_of(ball_in_air(mesher, 4e-3), 4);
  CHECK(volumes.ball_arc == near(pi / 8, 1e-6));
  CHECK(std::fabs(volumes.ball_error) < 1e-7);
  CHECK(std::fabs(volumes.all_error) < 1e-7);
}

}  // namespace coilpull
