// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/sensitivity.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "materials/constants.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/refine/face_motion.hpp"
#include "solver/refine/force_adjoint.hpp"
#include "solver/refine/harmonic_motion.hpp"
#include "solver/refine/order_pair.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;
using namespace coilpull::detail;

namespace {

/// A steel post with a cone, a winding that touches it, a plate glued on, and a ball of steel below a magnet
/// that is magnetised obliquely: slanted faces, arcs, shared faces.
Device cone_and_ball() {
  Device device;
  const Point tip{0, 4e-3}, shoulder{3e-3, 4e-3}, foot{6e-3, 0}, corner{6e-3, -8e-3}, bottom{0, -8e-3};
  device.cores = {
      core("post", {{{bottom, corner}, {corner, foot}, {foot, shoulder}, {shoulder, tip}, {tip, bottom}}},
           LangevinLaw{2.0, 200}),
      core("plate", rectangle(0, 14e-3, -11e-3, -8e-3), FroehlichLaw{1.9, 300}),
      core("ball", {{{{0, 9e-3}, {0, 15e-3}, Point{0, 12e-3}}, {{0, 15e-3}, {0, 9e-3}}}}, LinearLaw{40})};
  device.coils = {coil("coil", rectangle(6e-3, 11e-3, -7e-3, -1e-3), 300)};
  device.magnets = {magnet("disc", rectangle(2e-3, 7e-3, 16e-3, 20e-3), 0.6, 0.9)};
  device.moving = {"ball"};
  device.displacements = {0};
  device.circuits = {"coil"};
  device.currents_A = {{5}};
  return device;
}

/// The end of a rod of radius r with an edge rounded by `fillet`.
Outline rounded_rod(double r, double fillet) {
  const double low = -5e-3, high = 11e-3, in = r - fillet, below = high - fillet;
  return {{{{0, low}, {r, low}},
           {{r, low}, {r, below}},
           {{r, below}, {in, high}, Point{in, below}},
           {{in, high}, {0, high}},
           {{0, high}, {0, low}}}};
}

struct Solved {
  Device device;
  std::shared_ptr<const Mesh> mesh;
  std::unique_ptr<FieldSolver> solver;
  std::unique_ptr<ForceWeight> weight;
  Eigen::VectorXd currents;
  Field field;

  Solved(Device what, int order, double fineness) : device(std::move(what)) {
    mesh = mesh_of(device, device.displacements[0], coarse(fineness));
    FieldOptions options;
    options.order = order;
    solver = std::make_unique<FieldSolver>(mesh, make_problem(device, mesh->region_names), options);
    weight = std::make_unique<ForceWeight>(*solver->space(), roles_for(device.moving, mesh->region_names));
    currents = amperes(device.currents_A[0]);
    field = solver->solve(currents);
    REQUIRE(field.report.usable());
  }
  double force(FieldSolver& on) const {
    return AxialForce(*on.space(), *weight).on(on.solve(currents, field.coefficients));
  }
  double force_of(const Device& changed) const {
    FieldSolver other(solver->space(), make_problem(changed, mesh->region_names));
    return force(other);
  }
  ForceAdjoint adjoint() const {
    const AxialForce force(*solver->space(), *weight);
    return {solver->space().get(),
            &solver->problem(),
            weight.get(),
            field.coefficients,
            solver->adjoint(field, currents, force.gradient(field)),
            currents};
  }
};

/// Five points at two steps, their error of order h^4 taken off.
template <class F>
double sharp_slope(const F& f, double h) {
  const auto five = [&](double s) { return (f(-2 * s) - 8 * f(-s) + 8 * f(s) - f(2 * s)) / (12 * s); };
  return (16 * five(h / 2) - five(h)) / 15;
}

double area_in_plane(const Space& space, int region) {
  double area = 0;
  MappedRule at;
  for (int t = 0; t < space.topology->triangles.cols(); ++t) {
    if (space.mesh->region_of[t] != region) continue;
    map_rule(space.geometry, t, space.rule_of[t], at);
    area += (at.weight / (2 * pi * at.r)).sum();
  }
  return area;
}

/// Force of fields solved anew on the mesh moved by a step along the velocity, each winding keeping its
/// turns.
double force_on_moved(const Solved& solved, const Eigen::Matrix2Xd& velocity, double step) {
  const auto space = std::make_shared<Space>(*solved.solver->space());
  space->geometry = moved(space->geometry, velocity, step);
  Problem problem = solved.solver->problem();
  for (std::size_t k = 0; k < problem.regions.size(); ++k)
    if (problem.regions[k].winding)
      problem.regions[k].winding->turns_per_area *=
          area_in_plane(*solved.solver->space(), static_cast<int>(k)) /
          area_in_plane(*space, static_cast<int>(k));
  FieldSolver other(space, std::move(problem));
  return solved.force(other);
}

const Sensitivity& find(const SensitivityList& list, const std::string& part, const std::string& quantity) {
  for (const Sensitivity& one : list.ranked)
    for (const ChangeName& name : one.of)
      if (name.part == part && name.quantity == quantity) return one;
  FAIL("no " << quantity << " of " << part);
  return list.ranked.front();
}

SensitivityList list_of(const Device& device, double fineness) {
  const Resolution resolution = coarse(fineness);
  return sensitivities(mesh_of(device, device.displacements[0], resolution), device, device.displacements[0],
                       amperes(device.currents_A[0]), 3, resolution.outer_ratio);
}

}  // namespace

TEST_CASE("slopes along strengths are those of fields solved anew on the same mesh") {
  // Exact for the mesh: what is left is that of the difference quotient.
  const Solved tube(tube_and_rod(), 3, 0.7), cone(cone_and_ball(), 3, 0.7);
  const std::vector<StrengthSlopes> of_tube = strength_slopes(tube.adjoint()),
                                    of_cone = strength_slopes(cone.adjoint());
  const auto slope = [](const Solved& solved, const auto& change) {
    return sharp_slope(
        [&](double more) {
          Device changed = solved.device;
          change(changed, 1 + more);
          return solved.force_of(changed);
        },
        0.02);
  };
  CHECK(of_tube[0].polarization == near(slope(tube,
                                              [](Device& d, double k) {
                                                d.cores[0].law = FroehlichLaw{2.1 * k, 500};
                                              }),
                                        1e-7));
  CHECK(of_tube[1].ampere_turns ==
        near(slope(tube, [](Device& d, double k) { d.coils[0].turns *= k; }), 1e-7));
  CHECK(of_tube[2].remanence ==
        near(slope(tube, [](Device& d, double k) { d.magnets[0].law.remanence_z_T *= k; }), 1e-7));
  CHECK(of_tube[2].permeability ==
        near(slope(tube, [](Device& d, double k) { d.magnets[0].law.recoil_permeability *= k; }), 1e-7));
  CHECK(of_cone[0].polarization == near(slope(cone,
                                              [](Device& d, double k) {
                                                d.cores[0].law = LangevinLaw{2.0 * k, 200};
                                              }),
                                        1e-7));
  CHECK(of_cone[2].permeability ==
        near(slope(cone, [](Device& d, double k) { d.cores[2].law = LinearLaw{40 * k}; }), 1e-7));
  CHECK(of_cone[4].remanence == near(slope(cone,
                                           [](Device& d, double k) {
                                             d.magnets[0].law.remanence_r_T *= k;
                                             d.magnets[0].law.remanence_z_T *= k;
                                           }),
                                     1e-7));
}

TEST_CASE("slopes along dimensions and shifts are those of fields solved anew on the moved mesh") {
  for (const Device& device : {tube_and_rod(), cone_and_ball()}) {
    const Solved solved(device, 3, 0.7);
    const Space& space = *solved.solver->space();
    const FaceMotion motion(*solved.mesh, *space.topology,
                            faces_of(section_at(device, device.displacements[0]).parts));
    const HarmonicMotion inside(solved.mesh, motion.on_border());
    const ForceAdjoint adjoint = solved.adjoint();
    std::vector<NodeMotion> ways;
    for (const std::vector<int>& group : motion.groups()) ways.push_back(motion.of_group(group));
    ways.push_back(motion.of_parts({0}));
    for (NodeMotion& way : ways) {
      inside.extend(way.nodes);
      const Eigen::Matrix2Xd velocity = velocity_on(space.geometry, *solved.mesh, *space.topology, way);
      const double exact = slope_along(adjoint, velocity);
      const double anew =
          sharp_slope([&](double step) { return force_on_moved(solved, velocity, step); }, 4e-6);
      INFO("way " << &way - ways.data());
      CHECK(exact == near(anew, 1e-7));  // seen: 3e-8 where a winding's edge moves, the step's rounding
    }
  }
}

TEST_CASE("with straight laws the force is homogeneous of degree 2 in its sources, to rounding") {
  Device device = cone_and_ball();
  device.cores[0].law = LinearLaw{800};
  device.cores[1].law = LinearLaw{300};
  const SensitivityList list = list_of(device, 0.7);
  const double sum = find(list, "coil", "current").slope.value + find(list, "disc", "remanence").slope.value;
  CHECK(sum == near(2 * list.force_N, 1e-10));
}

TEST_CASE("a device drawn larger, with ampere-turns in proportion, has a force in proportion to its area") {
  // Euler's identity over all dimensions, places and the current; B is the same at every place of the larger
  // device, so the identity holds for any law. Left is what the mesh leaves.
  const SensitivityList list = list_of(tube_and_rod(), 1.5);
  double sum = 0;
  for (const Sensitivity& one : list.ranked) {
    const std::string& quantity = one.of.front().quantity;
    if (quantity == "current") sum += one.slope.value;
    if (one.is_length && one.present && quantity != "gap") sum += *one.present * one.slope.value;
  }
  CHECK(sum == near(2 * list.force_N, 5e-4));  // seen: 2e-4
}

TEST_CASE(
    "the slope along the displacement is that of the tangent, and all bodies shifted together change "
    "nothing") {
  const Device device = tube_and_rod();
  const auto mesh = mesh_of(device, device.displacements[0], coarse(1.5));
  const SensitivityList list =
      sensitivities(mesh, device, device.displacements[0], amperes({6}), 3, Resolution{}.outer_ratio);
  PairSolver pairs(mesh, device, 3, Resolution{}.outer_ratio);
  const OrderPair pair = pairs.solve(amperes({6}));
  const double along_z = find(list, "rod", "displacement").slope.value;
  CHECK(list.force_N == near(pair.force_high_N, 1e-9));  // Newton's residual
  CHECK(along_z == near(pairs.slopes(pair, amperes({6})).force_per_displacement, 1e-8));
  const double others =
      find(list, "tube", "z of the whole").slope.value + find(list, "coil", "z of the whole").slope.value;
  CHECK(others == near(-along_z, 1e-3));  // seen: 7e-4
}

TEST_CASE("slopes along dimensions are those of devices drawn and meshed anew") {
  // Five points; what is left is the scatter of five meshes over the step, and the truncation of a gap of 1.5
  // mm.
  Device rounded = tube_and_rod();
  rounded.magnets[0].outline = rounded_rod(4.5e-3, 1.5e-3);
  const SensitivityList tube = list_of(tube_and_rod(), 1.5), cone = list_of(cone_and_ball(), 1.5),
                        round = list_of(rounded, 1.5);
  const auto compare = [](const Sensitivity& one, const Device& device, double tolerance,
                          const auto& change) {
    Mesher mesher;
    const auto force = [&](double step) {
      Device changed = device;
      change(changed, step);
      const auto mesh =
          std::make_shared<Mesh>(mesher.mesh(section_at(changed, changed.displacements[0], coarse(1.5))));
      PairSolver solver(mesh, changed, 3, Resolution{}.outer_ratio);
      return solver.solve(amperes(changed.currents_A[0])).force_high_N;
    };
    const double h = 1e-4;
    const double anew = (force(-2 * h) - 8 * force(-h) + 8 * force(h) - force(2 * h)) / (12 * h);
    INFO(one.of.front().part << " " << one.of.front().quantity);
    CHECK(one.slope.value == near(anew, tolerance));
  };
  compare(find(tube, "tube", "inner radius"), tube_and_rod(), 3e-4,
          [](Device& d, double s) { d.cores[0].outline = rectangle(6e-3 + s, 9e-3, -20e-3, 20e-3); });
  compare(find(tube, "tube", "to"), tube_and_rod(), 1e-3,
          [](Device& d, double s) { d.cores[0].outline = rectangle(6e-3, 9e-3, -20e-3, 20e-3 + s); });
  compare(find(tube, "rod", "radius"), tube_and_rod(), 3e-4,
          [](Device& d, double s) { d.magnets[0].outline = rectangle(0, 4.5e-3 + s, -5e-3, 11e-3); });
  compare(find(tube, "coil", "outer radius"), tube_and_rod(), 5e-3,
          [](Device& d, double s) { d.coils[0].outline = rectangle(9.5e-3, 14e-3 + s, -18e-3, 6e-3); });
  compare(find(cone, "ball", "arc radius"), cone_and_ball(), 1e-4, [](Device& d, double s) {
    const Point low{0, 9e-3 - s}, high{0, 15e-3 + s};
    d.cores[2].outline = {{{low, high, Point{0, 12e-3}}, {high, low}}};
  });
  compare(find(cone, "plate", "to"), cone_and_ball(), 5e-4, [](Device& d, double s) {
    d.cores[1].outline = rectangle(0, 14e-3, -11e-3, -8e-3 + s);  // and the post that stands on it
    for (Edge& edge : d.cores[0].outline.edges) {
      if (edge.from.z == -8e-3) edge.from.z += s;
      if (edge.to.z == -8e-3) edge.to.z += s;
    }
  });
  compare(find(cone, "post", "slanted face"), cone_and_ball(), 3e-3, [](Device& d, double s) {
    // The line 0.8 r + 0.6 z = 4.8 mm moved outward by s; it cuts r = 6 mm and z = 4 mm.
    std::vector<Edge>& edges = d.cores[0].outline.edges;
    edges[1].to = edges[2].from = {6e-3, s / 0.6};
    edges[2].to = edges[3].from = {3e-3 + s / 0.8, 4e-3};
  });
  compare(find(round, "rod", "cylindrical face"), rounded, 1e-3,
          [](Device& d, double s) { d.magnets[0].outline = rounded_rod(4.5e-3 + s, 1.5e-3); });
  compare(find(round, "rod", "arc radius"), rounded, 6e-3,
          [](Device& d, double s) { d.magnets[0].outline = rounded_rod(4.5e-3, 1.5e-3 + s); });
}
