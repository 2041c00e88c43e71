// SPDX-License-Identifier: GPL-3.0-or-later
// What a caller of the library can get wrong is refused, and what goes wrong in a thread comes out of it.
#include <atomic>
#include <cmath>
#include <limits>
#include <memory>
#include <set>
#include <stdexcept>
#include <string>

#include "meshing/bad_section.hpp"
#include "solver/closed_form/image.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/fem/space.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/field/newton.hpp"
#include "solver/motion/coenergy_function.hpp"
#include "solver/sweep/crew.hpp"
#include "tests/near.hpp"
#include "tests/solver/magnet_ball.hpp"

namespace coilpull {
namespace {

Mesh one_triangle() {
  Mesh mesh;
  mesh.nodes.resize(2, 3);
  mesh.nodes << 0.001, 0.003, 0.002, 0, 0, 0.001;
  mesh.triangles.resize(3, 1);
  mesh.triangles << 0, 1, 2;
  mesh.region_of = Eigen::VectorXi::Zero(1);
  return mesh;
}

}  // namespace

TEST_CASE("a mesh that contradicts itself is refused") {
  Mesh mesh = one_triangle();
  const detail::Topology topology = detail::topology_of(mesh);
  CHECK_NOTHROW(detail::edge_between(topology, 2, 0));
  CHECK_THROWS_AS(detail::edge_between(topology, 0, 3), std::invalid_argument);
  CHECK_THROWS_AS(detail::DofMap(topology, 0), std::invalid_argument);
  CHECK_THROWS_AS(detail::DofMap(topology, detail::highest_order + 1), std::invalid_argument);
  mesh.triangles(2, 0) = 3;
  CHECK_THROWS_AS(detail::topology_of(mesh), std::invalid_argument);
}

TEST_CASE("a triangle that its arc folds over itself is refused with its place") {
  // The arc from node 0 to node 1 about (2 mm, -0.1 mm) rises above node 2 at 0.6 mm.
  auto mesh = std::make_shared<Mesh>(one_triangle());
  mesh->nodes(1, 2) = 0.6e-3;
  const auto topology = std::make_shared<const detail::Topology>(detail::topology_of(*mesh));
  CHECK_NOTHROW(detail::make_space(mesh, topology, 2, 1e-3));
  mesh->arcs.push_back({1, 0, {2e-3, -0.1e-3}});
  CHECK_THROWS_WITH_AS(detail::make_space(mesh, topology, 2, 1e-3),
                       doctest::Contains("a triangle on an arc folds over itself near r = 3.000000 mm"),
                       MeshingFailed);
}

TEST_CASE("a device and its mesh have to fit each other") {
  Device device;
  device.coils.push_back({"drive", rectangle(1e-3, 2e-3, 0, 1e-3), 10, "nobody"});
  CHECK_THROWS_WITH_AS(make_problem(device, {"drive", air_name}),
                       "coil drive belongs to a circuit that the device does not list",
                       std::invalid_argument);
  CHECK_THROWS_WITH_AS(make_problem(device, {"rod"}), "region rod of the mesh is no part of the device",
                       std::invalid_argument);
}

TEST_CASE("a problem of other regions than the mesh has is refused") {
  Device device;
  device.magnets.push_back({"disc", rectangle(0, 5e-3, 0, 2e-3), {0, 1.2, 1.05}, "invented"});
  device.displacements = {0};
  const auto mesh = std::make_shared<const Mesh>(Mesher().mesh(section_at(device, 0)));
  Problem problem = make_problem(device, mesh->region_names);
  problem.regions.pop_back();
  CHECK_THROWS_AS(solve_field(mesh, problem, Eigen::VectorXd(), {}), std::invalid_argument);
}

TEST_CASE("a moving part that all but touches a fixed one is refused before anything is solved") {
  Device device;
  device.cores.push_back({"rod", rectangle(0, 0.01, 0, 0.02), LinearLaw{100}, "invented"});
  device.cores.push_back({"tube", rectangle(0.01 + 5e-8, 0.015, 0, 0.02), LinearLaw{100}, "invented"});
  device.moving = {"rod"};
  device.displacements = {0};
  CHECK_THROWS_WITH_AS(
      check_stroke(device),
      doctest::Contains(
          "the moving part rod comes within 5e-05 mm of the fixed part tube; the least distance"),
      BadSection);
}

TEST_CASE("a field is known inside its mesh and nowhere else") {
  const Field field = field_of_ball();
  CHECK(std::isfinite(vector_potential(field, {ball_radius / 2, 0})));
  CHECK_THROWS_WITH_AS(vector_potential(field, {1e3, 0}), doctest::Contains("lies outside the mesh"),
                       std::out_of_range);
}

TEST_CASE("every ending of Newton's method has words of its own") {
  std::set<std::string> words;
  for (const NewtonEnding ending :
       {NewtonEnding::remaining_small, NewtonEnding::steps_used_up, NewtonEnding::no_descent,
        NewtonEnding::out_of_time, NewtonEnding::tangent_not_positive})
    words.insert(words_for(ending));
  CHECK(words.size() == 5);
  CHECK(words.count("unknown") == 0);
}

TEST_CASE("splines ask for places that rise, and for a coefficient each") {
  CHECK_THROWS_AS(SplineAxis({0, 1, 1}), std::invalid_argument);
  CHECK_THROWS_AS(SplineAxis({0}), std::invalid_argument);
  CHECK_THROWS_AS(SplineAxis({0, std::numeric_limits<double>::infinity()}), std::invalid_argument);
  const SplineAxis axis({0, 1, 2});
  const Eigen::Index n = axis.functions();
  CHECK_THROWS_AS(CoenergyFunction(axis, axis, Eigen::MatrixXd::Zero(n, n - 1)), std::invalid_argument);
  const CoenergyFunction function(axis, axis, Eigen::MatrixXd::Ones(n, n));
  CHECK(function.at(1, 1).coenergy_J == near(1, 1e-14));  // splines add up to 1
  CHECK_FALSE(function.covers(1, 2.1));
  CHECK(std::isnan(function.at(1, std::numeric_limits<double>::quiet_NaN()).force_N));
}

TEST_CASE("the mirror image of an image is what it is the image of") {
  const CurrentSheet sheet{3e-3, -1e-3, 4e-3};
  const CurrentSheet image = mirrored(sheet, 7e-3), again = mirrored(image, 7e-3);
  CHECK(image.radius == sheet.radius);
  CHECK(image.z_from == near(10e-3, 1e-14));
  CHECK(image.z_to == near(15e-3, 1e-14));
  CHECK(again.z_from == near(sheet.z_from, 1e-13));
  CHECK(again.z_to == near(sheet.z_to, 1e-13));
}

TEST_CASE("what a job of a crew throws comes out after all others are done") {
  std::atomic<int> done{0};
  const auto job = [&](std::size_t k, Mesher&) {
    if (k == 3) throw std::runtime_error("job 3");
    ++done;
  };
  CHECK_THROWS_WITH_AS(Crew(2, {}).run(8, job), "job 3", std::runtime_error);
  CHECK(done == 7);
}

}  // namespace coilpull
