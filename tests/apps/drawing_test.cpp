// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <regex>
#include <string>

#include "apps/drawing/part_list.hpp"
#include "apps/output/sheet_drawing.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

constexpr double point = 72 / 25.4;  // points per mm: the inch of 25.4 mm, and 72 points to it

/// A rod of 40 mm in a coil on a bobbin; invented round numbers.
Device rod_in_coil(double size = 1) {
  Device device;
  device.title = "rod";
  device.cores.push_back({"rod", rectangle(0, 5e-3 * size, 0, 40e-3 * size), LinearLaw{100}, "steel"});
  Coil coil{"drive", rectangle(7e-3 * size, 12e-3 * size, 6e-3 * size, 34e-3 * size), 100, "drive"};
  coil.wire = RoundWire{0.5e-3, 0.55e-3};
  coil.bobbin =
      Bobbin{rectangle(6e-3 * size, 12e-3 * size, 4e-3 * size, 36e-3 * size), 1e-3 * size, 2e-3 * size, 0, 0};
  device.coils.push_back(coil);
  device.circuits = {"drive"};
  return device;
}

/// Whether some straight piece of a path in the SVG runs so far to the right.
bool some_line_runs(const std::string& svg, double points) {
  static const std::regex corner(R"(([ML]) ([-0-9.]+) [-0-9.]+)");
  double before = 0;
  for (std::sregex_iterator match(svg.begin(), svg.end(), corner), end; match != end; ++match) {
    const double x = std::stod((*match)[2]);
    if ((*match)[1] == "L" && std::abs(std::abs(x - before) - points) < 0.01) return true;
    before = x;
  }
  return false;
}

}  // namespace

TEST_CASE("on paper a millimetre is a millimetre, and so is the bar's") {
  const Sheet sheet = draw_sheet(rod_in_coil(), 0);
  CHECK(sheet.paper.reduction == 1);
  CHECK(sheet.canvas.width() == near(sheet.paper.paper.width_mm * point, 1e-9));
  const std::string svg = sheet.canvas.svg("rod");
  CHECK(svg.find("pt\" height=") != std::string::npos);  // the size of the sheet is in points, not pixels
  CHECK(some_line_runs(svg, 40 * point));                // the rod
  CHECK(some_line_runs(svg, 100 * point));               // the bar
  CHECK_FALSE(some_line_runs(svg, 41 * point));
  CHECK(sheet.canvas.pdf("rod").rfind("%PDF-", 0) == 0);
}

TEST_CASE("the smallest sheet that holds it is taken, and what no A0 holds is reduced and says so") {
  const auto paper_for = [](double width_mm, double height_mm) {
    return choose_paper([=](int reduction) { return Extent{width_mm / reduction, height_mm / reduction}; });
  };
  // ISO 216: A4 is 297 x 210 mm; ISO 5457 leaves 267 x 190 of it
  CHECK(std::string(paper_for(267, 190).paper.name) == "A4");
  CHECK(std::string(paper_for(268, 190).paper.name) == "A3");
  CHECK(paper_for(1159, 821).reduction == 1);
  CHECK(paper_for(1160, 821).scale_words() == "1:2");  // ISO 5455: then 1:5
  CHECK(paper_for(2400, 821).scale_words() == "1:5");
  const Sheet large = draw_sheet(rod_in_coil(100), 0);
  CHECK(large.paper.reduction > 1);
  CHECK(some_line_runs(large.canvas.svg("rod"), 4000 * point / large.paper.reduction));
  CHECK(some_line_runs(large.canvas.svg("rod"), 100 * point));
}

TEST_CASE("the list of parts tells bobbin, wire with its spare, and turns") {
  const std::vector<PartLine> parts = part_list(rod_in_coil(), 0.1);
  REQUIRE(parts.size() == 3);
  CHECK(parts[0].size == "\u230010 x 40 mm");
  CHECK(parts[1].what == "bobbin");
  CHECK(parts[1].size == "\u230024 x 32 mm, bore \u230012, profile as drawn");
  // 100 turns of 2 pi 9.5 mm: 5.969 m, and a tenth
  CHECK(parts[2].size.rfind("6.57 m of wire, 10 % spare in it", 0) == 0);
}

TEST_CASE("a bobbin is wall and two flanges inside the drawn space") {
  const auto outline = bobbin_outline(rod_in_coil().coils[0]);
  REQUIRE(outline);
  CHECK(area(*outline) == near(1e-3 * 32e-3 + 2 * 5e-3 * 2e-3, 1e-12));  // wall, and flanges beside it
  CHECK_FALSE(bobbin_outline(Coil{"bare", rectangle(1e-3, 2e-3, 0, 1e-3), 10, "bare"}));
}

}  // namespace coilpull
