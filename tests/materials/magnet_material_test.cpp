// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/magnet_material.hpp"

#include "materials/bad_material.hpp"
#include "materials/catalogue.hpp"
#include "materials/constants.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

MagnetMaterial plain_grade() {
  MagnetMaterial magnet;
  magnet.remanence_T = 1.2, magnet.recoil_permeability = 1.05;
  magnet.intrinsic_coercivity_A_per_m = 1e6, magnet.squareness = 0.9;
  magnet.remanence_coefficient_per_K = -0.001, magnet.intrinsic_coercivity_coefficient_per_K = -0.006;
  magnet.max_temperature_degC = 120;
  return magnet;
}

}  // namespace

TEST_CASE(
    "remanence and coercivity change in proportion to the temperature above 20 degC, and the knee with "
    "them") {
  const RecoilLine cold = recoil_line_at(plain_grade(), 20), hot = recoil_line_at(plain_grade(), 100);
  CHECK(cold.remanence_T == 1.2);
  CHECK(*cold.knee_T == near(1.2 - 1.05 * mu0 * 0.9e6, 1e-13));
  CHECK(hot.remanence_T == near(1.2 * 0.92, 1e-13));
  CHECK(*hot.knee_T == near(1.2 * 0.92 - 1.05 * mu0 * 0.9e6 * 0.52, 1e-13));
}

TEST_CASE("neodymium fears the heat and ferrite the cold: that is where their knees rise") {
  const Catalogue catalogue = standard_catalogue();
  const auto knee = [&](const char* name, double degC) {
    return *recoil_line_at(catalogue.magnet(name), degC).knee_T;
  };
  CHECK(knee("n42", 80) > knee("n42", 20));
  CHECK(knee("y30", -40) > knee("y30", 20));
}

TEST_CASE("a temperature that the file cannot answer for is refused") {
  MagnetMaterial magnet = plain_grade();
  CHECK_THROWS_WITH_AS(recoil_line_at(magnet, 130),
                       "temperature_degC = 130: the material is not to be used above 120 degC", BadMaterial);
  magnet.max_temperature_degC.reset();
  CHECK_THROWS_WITH_AS(
      recoil_line_at(magnet, 200),
      "temperature_degC = 200: with intrinsic_coercivity_coefficient_per_K = -0.006 nothing would "
      "be left",
      BadMaterial);
  magnet.remanence_coefficient_per_K.reset();
  CHECK_THROWS_WITH_AS(
      recoil_line_at(magnet, 40),
      "temperature_degC = 40: the material does not state remanence_coefficient_per_K, so only 20 is "
      "possible",
      BadMaterial);
  magnet.intrinsic_coercivity_A_per_m.reset();
  CHECK_FALSE(recoil_line_at(magnet, 20).knee_T.has_value());
}

TEST_CASE(
    "every grade of the table of magnets that is not from memory is in the catalogue with its figures") {
  const CsvFile table = read_csv("data/published/permanent_magnets.csv");
  const Catalogue catalogue = standard_catalogue();
  int grades = 0;
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string grade = table.text_at(i, "grade");
    if (table.text_at(i, "certainty").rfind("read", 0) != 0 || grade.find('=') != std::string::npos) continue;
    INFO(grade);
    const MagnetMaterial& magnet = catalogue.magnet(grade);
    CHECK(magnet.evidence == Evidence::read);
    const double least = 1e-3 * table.number_at(i, "Br_min_mT");
    if (!table.text_at(i, "Br_max_mT").empty()) {
      CHECK(*magnet.remanence_low_T == near(least, 1e-12));
      CHECK(*magnet.remanence_high_T == near(1e-3 * table.number_at(i, "Br_max_mT"), 1e-12));
    } else {
      CHECK(magnet.remanence_T == near(least, 1e-12));
    }
    CHECK(*magnet.coercivity_A_per_m == near(1e3 * table.number_at(i, "HcB_kA_per_m"), 1e-12));
    CHECK(*magnet.intrinsic_coercivity_A_per_m == near(1e3 * table.number_at(i, "HcJ_kA_per_m"), 1e-12));
    CHECK(*magnet.remanence_coefficient_per_K ==
          near(1e-2 * table.number_at(i, "alpha_Br_pct_per_K"), 1e-12));
    ++grades;
  }
  CHECK(grades >= 22);
  for (const std::string& name : catalogue.magnet_names())
    CHECK(catalogue.magnet(name).family != "not stated");
}
