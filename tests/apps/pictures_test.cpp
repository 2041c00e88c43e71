// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <cmath>

#include "apps/output/axes.hpp"
#include "apps/output/bh_picture.hpp"
#include "apps/output/device_picture.hpp"
#include "apps/output/label_spread.hpp"
#include "apps/output/table_pictures.hpp"
#include "tests/apps/hand_made_table.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

constexpr double rounding = 1e-12;

Device plunger_device() {
  Device device;
  device.title = "plunger";
  device.cores.push_back(
      {"sleeve", rectangle(5e-3, 6e-3, -5e-3, 5e-3), FroehlichLaw(1.6, 100), "some steel"});
  device.coils.push_back({"drive", rectangle(6.5e-3, 9e-3, -4e-3, 4e-3), 100, "drive"});
  device.magnets.push_back({"plunger", rectangle(0, 4e-3, -3e-3, 3e-3), {0, 1.2, 1.05}, "some magnet"});
  device.moving = {"plunger"};
  device.circuits = {"drive"};
  device.currents_A = {{-1}, {0}, {1}};
  for (int i = 0; i <= 4; ++i) device.displacements.push_back(1e-3 * i);
  return device;
}

double lightness(const Colour& colour) {  // relative luminance, IEC 61966-2-1
  const auto linear = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

}  // namespace

TEST_CASE("labels keep their order, do not overlap and stay where there is room for all") {
  const std::vector<double> wishes = {50, 10, 12, 11, 99}, sizes = {10, 10, 4, 10, 10};
  const std::vector<double> places = spread(wishes, sizes, 0, 100);
  const std::size_t order[] = {1, 3, 2, 0, 4};
  for (int i = 0; i + 1 < 5; ++i) {
    const std::size_t a = order[i], b = order[i + 1];
    CHECK(places[b] - places[a] >= (sizes[a] + sizes[b]) / 2 - 1e-9);
  }
  CHECK(places[0] == near(50, rounding));  // nothing is near it
  CHECK(places[4] == near(95, rounding));  // the last place within 100
  CHECK(places[1] >= 5);
}

TEST_CASE("ticks are 1, 2 or 5 times a power of ten, inside the range, and zero has no sign") {
  CHECK(ticks({-0.25, 0.31}, 5) == std::vector<double>{-0.2, 0, 0.2});
  // where the numbers of a double lie as far apart as the steps: an end all the same, and no tick twice
  CHECK(ticks({1e16, 1e16 + 4}, 5) == std::vector<double>{1e16, 1e16 + 2, 1e16 + 4});
  CHECK(ticks({NAN, 1}, 5).empty());
  CHECK(ticks({-INFINITY, INFINITY}, 5).empty());
  CHECK(tick_words({-0.25, 0.31}, {-0.2, -0.0, 0.2}) == std::vector<std::string>{"-0.2", "0", "0.2"});
  CHECK(tick_words({-1, 1}, {-0.0}) == std::vector<std::string>{"0"});
  CHECK(tick_words({10, 1e5, true}, ticks({10, 1e5, true}, 5)) ==
        std::vector<std::string>{"10", "100", "1000", "10000", "100000"});
}

TEST_CASE("a scale of amounts darkens step by step, so that it reads without colour vision") {
  for (int i = 0; i < 100; ++i)
    CHECK(lightness(on_amount_scale(i / 100.0)) > lightness(on_amount_scale((i + 1) / 100.0)));
  CHECK(lightness(on_amount_scale(0)) > 0.95);  // zero field is the paper
}

TEST_CASE(
    "no more than nine currents are drawn, the first and the last among them, evenly where that can be") {
  for (std::size_t count = 1; count <= 200; ++count) {
    const std::vector<std::size_t> shown = readable_subset(count);
    CHECK(shown.size() <= 9);
    CHECK(shown.size() >= std::min<std::size_t>(count, 5));
    CHECK(shown.front() == 0);
    CHECK(shown.back() == count - 1);
    for (std::size_t i = 1; i < shown.size(); ++i) CHECK(shown[i] > shown[i - 1]);
  }
  CHECK(readable_subset(13) == std::vector<std::size_t>{0, 2, 4, 6, 8, 10, 12});
}

TEST_CASE("force curves carry currents, bars and the places where the force changes sign") {
  const CurvesPicture picture = force_picture(plunger_table(), plunger_device());
  REQUIRE(picture.curves.size() == 3);
  CHECK(picture.curves[0].label == "-1 A");
  CHECK(picture.labels_head == "drive");
  CHECK(picture.curves[2].points.at(1).y == near(5, rounding));  // 2 (2 - 1) + 3 N
  CHECK(picture.curves[2].points.at(1).bar == near(0.01, rounding));
  REQUIRE(picture.curves[2].marks.size() == 1);
  CHECK(picture.curves[2].marks[0].x == near(3.5, rounding));
  CHECK(picture.curves[2].marks[0].filled);
}

TEST_CASE(
    "a closed formula is dashed over the finite elements, and their ratio has holes where the force is "
    "weak") {
  ForceTable table = plunger_table();
  table.approximations = {"current_sheets"};
  for (Measurement& row : table.rows) row.approximate_force_N = {0.8 * row.force_N.value};
  const CurvesPicture both = approximation_picture(table, plunger_device(), 0);
  REQUIRE(both.curves.size() == 6);
  CHECK(!both.curves[0].dashed);
  CHECK(both.curves[1].dashed);
  CHECK(both.curves[5].points.at(1).y == near(0.8 * 5, rounding));
  CHECK(both.foot.find("current_sheets") != std::string::npos);
  CHECK(!draw(both).png(1).empty());

  const CurvesPicture ratio = approximation_ratio_picture(table, plunger_device(), 0);
  REQUIRE(ratio.curves.size() == 3);
  CHECK(ratio.curves[1].points.at(0).y == near(0.8, rounding));
  CHECK(ratio.curves[1].points.at(0).bar == near(0.8 * 0.01 / 4, rounding));
  CHECK(std::isnan(ratio.curves[1].points.at(2).y));  // 2 (2 - 2) + 0 N
  CHECK(!draw(ratio).png(1).empty());
}

TEST_CASE("the force picture crosses out what is computed past a knee, and nothing else") {
  ForceTable table = plunger_table();
  for (Measurement& row : table.rows)
    row.magnets = {{0.4, 0.8, row.displacement > 3.5e-3 && row.currents_A[0] < 0 ? 0.07 : 0.002}};
  const CurvesPicture picture = force_picture(table, plunger_device());
  for (const Curve& curve : picture.curves)
    for (const CurvePoint& point : curve.points)
      CHECK(point.crossed == (point.x == 4 && curve.label == "-1 A"));
  CHECK(picture.foot.substr(0, 11) == "CROSSED OUT");
}

TEST_CASE("a picture that leaves currents out says so") {
  ForceTable table = plunger_table();
  Device device = plunger_device();
  const ForceTable three = table;
  table.rows.clear();
  device.currents_A.clear();
  for (int set = 0; set < 12; ++set) device.currents_A.push_back({0.1 * set});
  for (std::size_t i = 0; i < 5; ++i)
    for (int set = 0; set < 12; ++set) table.rows.push_back(three.rows[3 * i]);
  table.currents_per_displacement = 12;
  CHECK(force_picture(table, device).below.find("9 of 12 currents") != std::string::npos);
}

TEST_CASE("lost rows leave a hole in the curve and no trouble") {
  const ForceTable table = plunger_table_with_a_lost_row();
  CHECK(!draw(force_picture(table, plunger_device())).png(1).empty());
  CHECK(!draw(linkage_picture(table, plunger_device(), 0)).png(1).empty());
  ForceTable lost = table;
  for (Measurement& row : lost.rows) row = lost.rows.back();
  CHECK(!draw(force_picture(lost, plunger_device())).png(1).empty());
}

TEST_CASE("every material is drawn once, with the points of its table") {
  Device device = plunger_device();
  device.cores.push_back(device.cores.front());
  CHECK(bh_picture(device)->curves.size() == 1);
  device.cores[1].law = BhCurve({{0, 0}, {100, 1}, {1000, 1.5}});
  const auto picture = bh_picture(device);
  REQUIRE(picture->curves.size() == 2);
  REQUIRE(picture->curves[1].marks.size() == 2);  // H = 0 has no place on a logarithmic axis
  CHECK(picture->curves[1].marks[0].x == near(100, rounding));
  CHECK(picture->curves[1].marks[1].y == near(1.5, rounding));
  device.cores = {{"iron", rectangle(5e-3, 6e-3, -5e-3, 5e-3), LinearLaw(1000), "linear"}};
  CHECK(!bh_picture(device).has_value());
}

TEST_CASE("any device can be drawn, whole and half") {
  Device device = plunger_device();
  for (const double stretch : {1.0, 100.0}) {
    device.cores.front().outline = rectangle(5e-3, 6e-3, -5e-3 * stretch, 5e-3 * stretch);
    const Canvas whole = draw_device(device), half = draw_device(device, Halves::upper);
    CHECK(whole.height() > half.height());
    CHECK(!whole.png(1).empty());
  }
  device.moving.clear();
  device.displacements.clear();
  device.magnets.clear();
  CHECK(!draw_device(device).svg("x").empty());
}
