// SPDX-License-Identifier: GPL-3.0-or-later
// Figures: data/published/coil_axis_fields.csv. Thick coils are solved as they are. A sheet becomes a winding
// of a twenty-fifth, a ring a square of a fiftieth of its radius: their expected field is the printed one
// times the ratio of the closed forms for that section and for the thin thing. Order 4: a field takes one
// order more than a force.
#include <cmath>
#include <cstdio>

#include "apps/validation/fe_path.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/published/rings.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

/// Rows whose name starts so, their heights and fields.
struct AxisRows {
  std::vector<double> z, bz;
};

AxisRows rows_of(const std::string& name) {
  const CsvFile table = read_csv("data/published/coil_axis_fields.csv");
  AxisRows rows;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "coil").rfind(name, 0) != 0) continue;
    rows.z.push_back(table.number_at(i, "z_m"));
    rows.bz.push_back(table.number_at(i, "Bz_T"));
  }
  return rows;
}

/// Coils of one series, with sensors on the axis so that the mesh reaches there.
Device in_series(const std::vector<Box>& sections, double turns, const std::vector<double>& heights) {
  Device device = in_air({});
  for (const Box& section : sections) {
    device.coils.push_back(coil_of("coil " + std::to_string(device.coils.size()), section, turns));
    device.coils.back().circuit = "series";
  }
  device.circuits = {"series"};
  for (const double z : heights) device.sensors.push_back({"at " + std::to_string(z), {0, z}});
  return device;
}

double field_of(const std::vector<Box>& sections, double z) {
  double sum = 0;
  for (const Box& s : sections)
    sum += axis_field_of_section(s.r_from, s.r_to, s.z_to - s.z_from, z - 0.5 * (s.z_from + s.z_to));
  return sum;
}

}  // namespace

TEST_CASE("on the axis of a thick coil B follows the closed form") {
  struct Case {
    const char* name;
    double inner, outer, length, ampere_turns;
  };
  FePath path(4, {2.0});
  for (const Case& c : {Case{"thick solenoid C:", 0.006, 0.012, 0.020, 500},
                        Case{"thick solenoid B:", 0.010, 0.015, 0.020, 100},
                        Case{"thick solenoid Brooks", 0.010, 0.020, 0.010, 1000}}) {
    const AxisRows rows = rows_of(c.name);
    REQUIRE(rows.z.size() == 5);
    const Box section = {c.inner, c.outer, -0.5 * c.length, 0.5 * c.length};
    const Solved solved = path.solve(in_series({section}, c.ampere_turns, rows.z), 0, {{1}}).front();
    for (std::size_t i = 0; i < rows.z.size(); ++i) {
      INFO(c.name << " at z = " << rows.z[i] << " m");
      CHECK(c.ampere_turns * field_of({section}, rows.z[i]) == near(rows.bz[i], 1e-11));  // 12 digits printed
      CHECK(solved.b_z({0, rows.z[i]}) == near(rows.bz[i], 1e-5));
    }
  }
}

TEST_CASE("on the axis of a thin solenoid B is that of a current sheet") {
  const double radius = 0.010;
  FePath path(4, {2.0});
  for (const double length : {0.040, 0.010}) {
    char name[60];
    std::snprintf(name, sizeof name, "thin solenoid R=10 l=%.0f mm", 1e3 * length);
    const AxisRows rows = rows_of(name);
    REQUIRE(rows.z.size() == 5);
    const Box section = {0.98 * radius, 1.02 * radius, -0.5 * length, 0.5 * length};
    const Solved solved = path.solve(in_series({section}, 1000, rows.z), 0, {{1}}).front();
    for (std::size_t i = 0; i < rows.z.size(); ++i) {
      INFO(name << " at z = " << rows.z[i] << " m");
      const auto end = [&](double u) { return u / std::hypot(radius, u); };
      const double sheet =
          0.5 * mu0 / length * (end(rows.z[i] + 0.5 * length) - end(rows.z[i] - 0.5 * length));
      CHECK(1000 * sheet == near(rows.bz[i], 1e-11));
      const double thickness = field_of({section}, rows.z[i]) / sheet;
      CHECK(solved.b_z({0, rows.z[i]}) == near(rows.bz[i] * thickness, 1e-5));
    }
  }
}

TEST_CASE("a Helmholtz pair is even at its centre and falls as published along its axis") {
  struct Case {
    const char* name;
    double radius, turns;
  };
  FePath path(4, {2.0});
  for (const Case& c :
       {Case{"Helmholtz pair R=0.150 m", 0.150, 130}, Case{"Helmholtz pair R=0.1 m", 0.1, 1}}) {
    const AxisRows rows = rows_of(c.name);
    REQUIRE(rows.z.size() == 4);
    const double half = 0.01 * c.radius, in = c.radius - half, out = c.radius + half, middle = 0.5 * c.radius;
    const std::vector<Box> pair = {{in, out, -middle - half, -middle + half},
                                   {in, out, middle - half, middle + half}};
    const Solved solved = path.solve(in_series(pair, c.turns, rows.z), 0, {{1}}).front();
    for (std::size_t i = 0; i < rows.z.size(); ++i) {
      INFO(c.name << " at z = " << rows.z[i] << " m");
      double rings = 0;
      for (const double centre : {-middle, middle})
        rings += 0.5 * mu0 * c.radius * c.radius / std::pow(std::hypot(c.radius, rows.z[i] - centre), 3);
      CHECK(c.turns * rings == near(rows.bz[i], 1e-11));
      const double thickness = field_of(pair, rows.z[i]) / rings;
      CHECK(solved.b_z({0, rows.z[i]}) == near(rows.bz[i] * thickness, 1e-5));
    }
  }
}
