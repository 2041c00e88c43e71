// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/keys.hpp"

#include <sstream>
#include <string>

#include "tests/near.hpp"

namespace coilpull {

namespace {

/// One table, read from a text of keys; the parsed text lives beside it.
struct Keys {
  explicit Keys(const std::string& text)
      : parsed(toml::parse(std::string_view(text))), source{"keys.toml", {}} {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) source.lines.push_back(line);
  }
  Table table() const { return Table(parsed, source, Place{"keys.toml"}); }

  toml::table parsed;
  SourceText source;
};

double length_of(const std::string& text) { return length_m(Keys(text).table(), "gap", "").si; }

double radius_of(const std::string& text) { return radius_m(Keys(text).table(), "inner_", "").si; }

std::vector<double> lengths_of(const std::string& text) {
  return find_lengths_m(Keys(text).table(), "gap")->si;
}

std::vector<double> currents_of(const std::string& text) {
  return find_currents_A(Keys(text).table(), "drive")->si;
}

}  // namespace

TEST_CASE("7 mm is the same double as 0.007 m, for every whole millimetre up to a metre") {
  for (int mm = 1; mm < 1000; ++mm) {
    const std::string digits = std::to_string(mm);
    const std::string m = "0." + std::string(3 - digits.size(), '0') + digits;
    CHECK(length_of("gap_mm = " + digits) == length_of("gap_m = " + m));
  }
}

TEST_CASE("a decimal fraction of a millimetre is off by one last bit at most") {
  // Two roundings, that of 2.1 and that of the division, against the one of 0.0021: 2.2e-16.
  CHECK(length_of("gap_mm = 2.1") == near(length_of("gap_m = 0.0021"), 2.3e-16));
  CHECK(length_of("gap_mm = 9.8") == near(length_of("gap_m = 0.0098"), 2.3e-16));
}

TEST_CASE("an inch is 25.4 mm, exactly by definition") {
  CHECK(length_of("gap_in = 1") == 0.0254);
  CHECK(length_of("gap_in = 2.5") == near(0.0635, 1e-15));
}

TEST_CASE("a diameter says half of itself, to the last bit of the radius") {
  CHECK(radius_of("inner_diameter_mm = 11") == radius_of("inner_radius_mm = 5.5"));
  CHECK(radius_of("inner_diameter_m = 0.011") == radius_of("inner_radius_m = 0.0055"));
  CHECK(radius_of("inner_diameter_in = 0.25") == radius_of("inner_radius_in = 0.125"));
}

TEST_CASE("a milliampere is a thousandth of an ampere") {
  CHECK(currents_of("drive_mA = [-250, 0, 250]") == std::vector<double>{-0.25, 0, 0.25});
}

TEST_CASE("a millitesla is a thousandth, a gauss a ten-thousandth of a tesla") {
  const auto density_of = [](const std::string& text) {
    return flux_density_T(Keys(text).table(), "B_z", "").si;
  };
  CHECK(density_of("B_z_T = -0.0125") == -0.0125);
  CHECK(density_of("B_z_mT = -12.5") == -0.0125);
  CHECK(density_of("B_z_G = -125") == -0.0125);
}

TEST_CASE("a list keeps its order, a single number is a list of one") {
  CHECK(lengths_of("gap_mm = [5, 0, 2]") == std::vector<double>{0.005, 0, 0.002});
  CHECK(lengths_of("gap_mm = 5") == std::vector<double>{0.005});
}

TEST_CASE("a range meets its ends, whole steps and zero exactly") {
  const std::vector<double> gaps = lengths_of("gap_mm = { from = 0, to = 50, points = 51 }");
  REQUIRE(gaps.size() == 51);
  for (int mm = 0; mm <= 50; ++mm) CHECK(gaps[mm] == mm / 1000.0);

  const std::vector<double> currents = currents_of("drive_A = { from = -0.3, to = 0.3, points = 7 }");
  REQUIRE(currents.size() == 7);
  CHECK(currents.front() == -0.3);
  CHECK(currents[3] == 0);
  CHECK(currents.back() == 0.3);
}

TEST_CASE("a key that is not there is none, and only a needed one is refused") {
  const Keys keys("other_mm = 1");
  CHECK(!find_length_m(keys.table(), "gap"));
  CHECK(!find_lengths_m(keys.table(), "gap"));
  CHECK_THROWS_AS(length_m(keys.table(), "gap", ""), BadDevice);
}

TEST_CASE(
    "a quoted value keeps its letters, also behind letters of more than one byte and over several lines") {
  const Keys keys("a = { title = \"\u00fcber\", turns = [ 1,\n   2 ] }\n");
  const Table inner = inline_table(*keys.table().find("a"), keys.source, "");
  CHECK(inner.find("title")->place.value == "\"\u00fcber\"");
  CHECK(inner.find("turns")->place.value == "[ 1, 2 ]");
  CHECK(inner.find("turns")->place.line == 1);
}

}  // namespace coilpull
