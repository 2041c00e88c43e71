// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/refine/sensitivity.hpp"

#include <doctest/doctest.h>

#include <functional>
#include <optional>

#include "materials/constants.hpp"
#include "solver/refine/order_pair.hpp"
#include "tests/near.hpp"
#include "tests/physics/devices.hpp"

using namespace coilpull;

namespace {

/// The end of a rod of radius r with an edge rounded by `fillet`.
Outline rounded_rod(double r, double fillet) {
  const double low = -5e-3, high = 11e-3, in = r - fillet, below = high - fillet;
  return {{{{0, low}, {r, low}},
           {{r, low}, {r, below}},
           {{r, below}, {in, high}, Point{in, below}},
           {{in, high}, {0, high}},
           {{0, high}, {0, low}}}};
}

/// A tube whose upper end is one arc of 180 degrees from wall to wall, 18.5 mm high where it begins.
Outline round_ended_tube(double inner, double outer) {
  const double low = -20e-3, shoulder = 18.5e-3;
  return {{{{inner, low}, {outer, low}},
           {{outer, low}, {outer, shoulder}},
           {{outer, shoulder}, {inner, shoulder}, Point{(inner + outer) / 2, shoulder}},
           {{inner, shoulder}, {inner, low}}}};
}

/// @param drawn  of several dimensions of one name, the one that is drawn with this value
const Sensitivity& find(const SensitivityList& list, const std::string& part, const std::string& quantity,
                        std::optional<double> drawn = {}) {
  for (const Sensitivity& one : list.ranked)
    for (const ChangeName& name : one.of)
      if (name.part == part && name.quantity == quantity &&
          (!drawn || (one.present && *one.present == near(*drawn, 1e-12))))
        return one;
  FAIL("no " << quantity << " of " << part);
  return list.ranked.front();
}

SensitivityList list_on(const Device& device, const Resolution& resolution) {
  return sensitivities(mesh_of(device, device.displacements[0], resolution), device, device.displacements[0],
                       amperes(device.currents_A[0]), 3, resolution.outer_ratio);
}

SensitivityList list_of(const Device& device, double fineness) { return list_on(device, coarse(fineness)); }

/// Corners small enough that the scatter between meshes stays below what their differences are to show.
Resolution fine_corners() {
  Resolution resolution = coarse(1.5);
  resolution.at_corner = 0.02;
  return resolution;
}

/// Of devices drawn and meshed anew, by five points; what is left is the scatter of their meshes over the
/// step, and the truncation of a gap of 1.5 mm. @param change  draws a device with the dimension larger by a
/// step [m]
double force_slope_anew(const Device& device, const std::function<void(Device&, double)>& change) {
  Mesher mesher;
  const auto force = [&](double step) {
    Device changed = device;
    change(changed, step);
    const auto mesh =
        std::make_shared<Mesh>(mesher.mesh(section_at(changed, changed.displacements[0], fine_corners())));
    PairSolver solver(mesh, changed, 3, Resolution{}.outer_ratio);
    return solver.solve(amperes(changed.currents_A[0])).force_high_N;
  };
  const double h = 1e-4;
  return (force(-2 * h) - 8 * force(-h) + 8 * force(h) - force(2 * h)) / (12 * h);
}

}  // namespace

TEST_CASE("with straight laws the force is homogeneous of degree 2 in its sources, to rounding") {
  Device device = cone_and_ball();
  device.cores[0].law = LinearLaw{800};
  device.cores[1].law = LinearLaw{300};
  device.background_bz_T = 0.05;
  const SensitivityList list = list_of(device, 0.7);
  const double sum = find(list, "coil", "current").slope.value + find(list, "disc", "remanence").slope.value +
                     find(list, "background", "B_z").slope.value;
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

TEST_CASE("all bodies shifted together change nothing but their place in the half circle") {
  const SensitivityList list = list_of(tube_and_rod(), 1.5);
  const double along_z = find(list, "rod", "displacement").slope.value;
  const double others =
      find(list, "tube", "z of the whole").slope.value + find(list, "coil", "z of the whole").slope.value;
  CHECK(others == near(-along_z, 3e-4));  // seen: 6e-5

  const Device device = tube_and_rod();
  PairSolver pairs(mesh_of(device, 14e-3, coarse(1.5)), device, 3, Resolution{}.outer_ratio);
  const OrderPair pair = pairs.solve(amperes({6}));
  CHECK(list.force_N == near(pair.force_high_N, 1e-9));  // Newton's residual
  // Two ways to take the same slope on one mesh: they differ by the discretisation.
  CHECK(along_z == near(pairs.slopes(pair, amperes({6})).force_per_displacement, 1e-3));
}

TEST_CASE("a steel given by points answers to its polarization like the law that the points are taken from") {
  // 60 points of the law, cubics between: B of the curve is off by some 1e-5.
  const FroehlichLaw law{2.1, 500};
  std::vector<BhCurve::Point> points{{0, 0}};
  for (double h = 20; h < 4e5; h *= 1.18) points.push_back({h, mu0 * h + 2.1 * h / (h + 500)});
  Device by_points = tube_and_rod();
  by_points.cores[0].law = BhCurve(points);
  CHECK(find(list_of(by_points, 0.7), "tube", "polarization").slope.value ==
        near(find(list_of(tube_and_rod(), 0.7), "tube", "polarization").slope.value, 1e-3));
}

TEST_CASE("slopes along dimensions are those of devices drawn and meshed anew") {
  Device rounded = tube_and_rod();
  rounded.magnets[0].outline = rounded_rod(4.5e-3, 1.5e-3);
  const SensitivityList tube = list_on(tube_and_rod(), fine_corners()),
                        cone = list_on(cone_and_ball(), fine_corners()),
                        round = list_on(rounded, fine_corners());
  const auto compare = [](const Sensitivity& one, const Device& device, double tolerance,
                          const auto& change) {
    const double anew = force_slope_anew(device, change);
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

TEST_CASE("a wall that goes on smoothly into an arc of 180 degrees widens it, and the other wall stays") {
  // Drawn anew: the arc has half the wall's growth as radius, and its centre lies half of it further out.
  Device device = tube_and_rod();
  device.cores[0].outline = round_ended_tube(6e-3, 9e-3);
  const SensitivityList list = list_on(device, fine_corners());
  for (const Sensitivity& one : list.ranked)
    CHECK(one.of.front().quantity != "arc radius");  // both walls hold it
  const auto outer = force_slope_anew(
      device, [](Device& d, double s) { d.cores[0].outline = round_ended_tube(6e-3, 9e-3 + s); });
  const auto inner = force_slope_anew(
      device, [](Device& d, double s) { d.cores[0].outline = round_ended_tube(6e-3 + s, 9e-3); });
  CHECK(find(list, "tube", "cylindrical face", 9e-3).slope.value == near(outer, 1e-3));  // seen: 8e-4
  CHECK(find(list, "tube", "cylindrical face", 6e-3).slope.value == near(inner, 1e-3));  // seen: 5e-4
}
