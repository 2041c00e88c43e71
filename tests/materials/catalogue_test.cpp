// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/catalogue.hpp"

#include <cstdlib>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/data_directory.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/materials/material_files.hpp"
#include "tests/near.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

TEST_CASE(
    "every material file that comes with the program loads and states source, certainty, condition and "
    "limits") {
  const Catalogue catalogue({std::string(COILPULL_SOURCE_DIR) + "/data"});
  CHECK(catalogue.steel_names().size() >= 3);
  CHECK(catalogue.magnet_names().size() >= 3);
  const auto stated = [](const auto& material) {
    INFO(material.name);
    for (const std::string* words :
         {&material.source, &material.certainty, &material.condition, &material.beyond}) {
      CHECK(*words != "");
      CHECK(*words != "not stated");
    }
  };
  for (const std::string& name : catalogue.steel_names()) {
    stated(catalogue.steel(name));
    CHECK(evaluate(catalogue.steel(name).law, 1.0).h > 0);
  }
  for (const std::string& name : catalogue.magnet_names()) stated(catalogue.magnet(name));
}

TEST_CASE("the TEAM 13 file holds the published points and goes on with the problem's formula") {
  const SoftMaterial steel = standard_catalogue().steel("TEAM 13 Steel");
  for (const BhCurve::Point& point : team13_points())
    if (point.b_T > 0) CHECK(evaluate(steel.law, point.b_T).h == near(point.h_A_per_m, 1e-14));
  // Between the sampled fields: formula of the problem, quoted in data/published/bh_team10_13_steel.csv.
  for (const double h : {10000.0, 14500.0, 18000.0, 26000.0, 38000.0, 46000.0, 48000.0}) {
    INFO("H = " << h << " A/m");
    const double b = mu0 * h - 2.381e-10 * h * h + 2.327e-5 * h + 1.590;
    const LawPoint at = evaluate(steel.law, b);
    CHECK(b + (h - at.h) / at.dh_db ==
          near(b, 2e-4));  // B at this H; 1.2e-4 beside the kink where table and formula meet
  }
  CHECK(*steel.saturation_polarization_T == 2.16);
}

TEST_CASE("materials are found by any of their names, capitals ignored") {
  const Catalogue catalogue = standard_catalogue();
  CHECK(catalogue.steel("Demo Soft Steel").name == "demo soft steel");
  CHECK(catalogue.magnet("N42").name == "neodymium n42");
  CHECK(catalogue.magnet("demo magnet 1.2 t").remanence_T == 1.2);
}

TEST_CASE("an unknown name is answered with the nearest one, or with all") {
  const TemporaryFolder folder;
  folder.write("steels/a.toml", "name = \"soft iron\"\nsource = \"test\"\nlaw = \"linear\"\nmu_r = 100\n");
  const Catalogue catalogue({folder.path});
  CHECK(refusal([&] { catalogue.steel("soft irn"); }) ==
        "no steel called \"soft irn\"; did you mean \"soft iron\"?");
  CHECK(refusal([&] { catalogue.steel("wood"); }) == "no steel called \"wood\". Known: \"soft iron\"");
}

TEST_CASE("a name used twice is refused") {
  const TemporaryFolder folder;
  const std::string text = "name = \"Iron\"\nsource = \"test\"\nlaw = \"linear\"\nmu_r = 100\n";
  folder.write("steels/a.toml", text);
  const fs::path second = folder.write("steels/b.toml", text);
  CHECK(refusal([&] { Catalogue({folder.path}); }) ==
        second.string() + ": the name \"Iron\" is taken by another file of the catalogue");
}

TEST_CASE("a pair of bounds is used bound by bound, and needs both") {
  const TemporaryFolder folder;
  const auto member = [](const std::string& bound, const std::string& mu_r) {
    return "name = \"bolt " + bound + "\"\nsource = \"test\"\nlaw = \"linear\"\nmu_r = " + mu_r +
           "\npair = \"bolt\"\nbound = \"" + bound + "\"\n";
  };
  folder.write("steels/weak.toml", member("weak", "100"));
  CHECK(refusal([&] { Catalogue({folder.path}); }) == "no pair of bounds called \"bolt\"");
  folder.write("steels/strong.toml", member("strong", "900"));
  const Catalogue catalogue({folder.path});
  CHECK(catalogue.pair_names() == std::vector<std::string>{"bolt"});
  CHECK(catalogue.bracket("Bolt").weak->name == "bolt weak");
  CHECK(catalogue.bracket("bolt").strong->name == "bolt strong");
  CHECK(refusal([&] { catalogue.steel("bolt"); }) ==
        "\"bolt\" is known as a pair of bounds only: use \"bolt weak\" and \"bolt strong\" in turn; the "
        "truth lies "
        "between them");
  CHECK(refusal([&] { catalogue.bracket("nut"); }) == "no pair of bounds called \"nut\"");
}

TEST_CASE("a folder of material data that is not there is refused") {
  CHECK(refusal([] { Catalogue({"/nowhere"}); }) == "/nowhere: no such folder of material data");
}

TEST_CASE("a person's own file needs no more than a source and a law, and is called like its file") {
  const TemporaryFolder folder;
  const SoftMaterial steel = read_steel(folder.write(
      "my_bar.toml", "source = \"ring test\"\nh_A_per_m = [0, 100, 1000]\nb_T = [0, 0.8, 1.4]\n"));
  CHECK(steel.name == "my_bar");
  CHECK(steel.beyond == "not stated");
  CHECK_FALSE(steel.saturation_polarization_T.has_value());
}

TEST_CASE("COILPULL_DATA names the data folder, and a wrong one is refused") {
  const TemporaryFolder folder;
  setenv("COILPULL_DATA", folder.path.c_str(), 1);
  CHECK(data_directory() == folder.path);
  setenv("COILPULL_DATA", "/nowhere", 1);
  CHECK(refusal([] { data_directory(); }) ==
        "COILPULL_DATA = /nowhere: no such folder. It must hold steels, magnets and wire; unset it to use "
        "the data that "
        "come with the program");
  unsetenv("COILPULL_DATA");
  CHECK(fs::is_directory(data_directory() / "wire"));
}
