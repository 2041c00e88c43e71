// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/wire.hpp"

#include "materials/bad_material.hpp"
#include "tests/materials/material_files.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

TEST_CASE("bare diameter by AWG follows the geometric rule of ASTM B258") {
  // data/published/wire_awg.csv: six digits of the rule, four digits of a printed table.
  const CsvFile table = read_csv("data/published/wire_awg.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string& name = table.text_at(i, "AWG");
    const int gauge = name.find_first_not_of('0') == std::string::npos ? 1 - static_cast<int>(name.size())
                                                                       : std::stoi(name);
    INFO("AWG " << name);
    CHECK(awg_bare_diameter(gauge) * 1e3 == near(table.number_at(i, "d_mm"), 5e-6));
    if (!table.text_at(i, "d_in_printed").empty())
      CHECK(awg_bare_diameter(gauge) / 0.0254 == near(table.number_at(i, "d_in_printed"), 2e-3));
  }
  CHECK_THROWS_WITH_AS(awg_bare_diameter(51), "awg = 51: allowed are -3 (0000) to 50", BadMaterial);
}

TEST_CASE("resistance of annealed copper wire is that of IEC 60028 within the rounding of the tables") {
  // The AWG table uses 1/58e6 ohm m = 1.72414e-8; ours 1.7241e-8: 2.2e-5 apart.
  const CsvFile awg = read_csv("data/published/wire_awg.csv");
  for (std::size_t i = 0; i < awg.records.size(); ++i)
    CHECK(resistance_per_metre(Metal::copper, 1e-3 * awg.number_at(i, "d_mm"), 20) ==
          near(awg.number_at(i, "R20_ohm_per_m"), 4e-5));
  // Printed nominal resistances use 58.5e6 S/m; undo that, then their four digits are left.
  const CsvFile iec = read_csv("data/wire/enamelled_round_iec60317.csv");
  int printed = 0;
  for (std::size_t i = 0; i < iec.records.size(); ++i) {
    if (iec.text_at(i, "R_nom_printed").empty()) continue;
    const double nominal =
        resistance_per_metre(Metal::copper, 1e-3 * iec.number_at(i, "d_nom_mm"), 20) / (1.7241e-8 * 58.5e6);
    CHECK(nominal == near(iec.number_at(i, "R_nom_printed"), 1e-3));
    ++printed;
  }
  CHECK(printed == 21);
  CHECK(resistance_per_metre(Metal::copper, 1e-3, 120) / resistance_per_metre(Metal::copper, 1e-3, 20) ==
        near(1.393, 1e-12));
}

TEST_CASE("overall diameter of enamelled wire is the table's at every nominal size") {
  const CsvFile table = read_csv("data/wire/enamelled_round_iec60317.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double bare = 1e-3 * table.number_at(i, "d_nom_mm");
    INFO("bare " << bare << " m");
    CHECK(wire_size(bare, Grade::grade_1).overall_m == near(1e-3 * table.number_at(i, "OD_g1_max"), 1e-12));
    CHECK(wire_size(bare, Grade::grade_2).overall_m == near(1e-3 * table.number_at(i, "OD_g2_max"), 1e-12));
  }
}

TEST_CASE("between nominal sizes the enamel's increase is interpolated") {
  // 0.71 mm: 0.789 - 0.710 = 0.079; 0.80 mm: 0.884 - 0.800 = 0.084; half way 0.0815.
  const RoundWireSize size = wire_size(0.755e-3, Grade::grade_2);
  CHECK(size.bare_m == 0.755e-3);
  CHECK(size.overall_m == near(0.755e-3 + 0.0815e-3, 1e-12));
}

TEST_CASE("wire outside the table and unknown enamel are refused with the range") {
  CHECK_THROWS_WITH_AS(wire_size(5e-3, Grade::grade_1),
                       "bare wire diameter 5 mm: the table of enamelled wire reaches from 0.03 to 3.15 mm",
                       BadMaterial);
  CHECK(insulation_grade("Grade 2") == Grade::grade_2);
  CHECK_THROWS_WITH_AS(
      insulation_grade("thick"),
      "insulation = \"thick\": allowed are \"grade 1\" and \"grade 2\" (enamel of IEC 60317)", BadMaterial);
}

TEST_CASE("a table of wire that is none is refused with its line") {
  const auto said = [](const std::string& text) {
    const TemporaryFolder folder;
    const auto file = folder.write("wire.csv", text);
    return refusal([&] { WireTable{file}; }).substr(folder.path.string().size() + 1);
  };
  const std::string head = "# of a test\nd_nom_mm,OD_g1_max,OD_g2_max\n";
  CHECK(said(head + "0.5,0.55,0.57\n0.6,wide,0.68\n") == "wire.csv:4: OD_g1_max must be a number above 0");
  CHECK(said(head + "0.5,0.55\n") == "wire.csv:3: OD_g2_max must be a number above 0");
  CHECK(said(head + "0.5,0.55,0.57\n0.5,0.55,0.57\n") == "wire.csv:4: d_nom_mm must rise");
  CHECK(said(head) == "wire.csv: no wire sizes in it");
  CHECK(refusal([] { WireTable{"/nowhere/wire.csv"}; }) == "/nowhere/wire.csv: cannot be read");
}

TEST_CASE("the nominal sizes of the table are listed as they stand there") {
  const CsvFile table = read_csv("data/wire/enamelled_round_iec60317.csv");
  const std::vector<double> nominal = standard_wire_table().nominal_m();
  REQUIRE(nominal.size() == table.records.size());
  for (std::size_t i = 0; i < nominal.size(); ++i)
    CHECK(nominal[i] == near(1e-3 * table.number_at(i, "d_nom_mm"), 1e-12));
}

TEST_CASE("metals are known by name, and weigh and conduct as IEC 60028 and 60889 state") {
  CHECK(metal_called("Copper") == Metal::copper);
  CHECK(metal_called(word_for(Metal::aluminium)) == Metal::aluminium);
  CHECK_THROWS_WITH_AS(metal_called("silver"), "metal = \"silver\": allowed are \"copper\" and \"aluminium\"",
                       BadMaterial);
  // 1.7241e-8 ohm m and 8890 kg/m^3: 0.153 28 ohm g/m^2, the classic figure of the annealed standard
  const auto ohm_gram = [](Metal metal) {
    return resistance_per_metre(metal, 1e-3, 20) * 1e3 * mass_per_metre(metal, 1e-3);
  };
  CHECK(ohm_gram(Metal::copper) == near(0.15328, 5e-5));
  // 61 % of the conductivity of annealed copper, as the resistivity of IEC 60889 is commonly quoted (from
  // memory)
  CHECK(resistance_per_metre(Metal::aluminium, 1e-3, 20) / resistance_per_metre(Metal::copper, 1e-3, 20) ==
        near(1 / 0.61, 1e-4));
  CHECK(resistance_rise_per_kelvin(Metal::copper) == 0.00393);
}
