// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/catalogue.hpp"

#include <cstdlib>
#include <fstream>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/data_directory.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

/// A folder of its own in the temporary directory, gone at the end.
struct TemporaryFolder {
  fs::path path;
  TemporaryFolder() {
    std::string pattern = (fs::temp_directory_path() / "coilpull_catalogue_XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    path = pattern;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() { fs::remove_all(path); }

  fs::path write(const std::string& name, const std::string& text) const {
    fs::create_directories((path / name).parent_path());
    std::ofstream(path / name) << text;
    return path / name;
  }
};

template <class Read>
std::string refusal(const Read& read) {
  try {
    read();
  } catch (const BadMaterial& bad) {
    return bad.what();
  }
  return "accepted";
}

/// What read_steel says of a file with this text, without the folder.
std::string steel_refusal(const std::string& text) {
  const TemporaryFolder folder;
  const fs::path file = folder.write("bad.toml", text);
  const std::string words = refusal([&] { read_steel(file); });
  const std::string prefix = folder.path.string() + "/";
  return words.rfind(prefix, 0) == 0 ? words.substr(prefix.size()) : words;
}

std::string magnet_refusal(const std::string& text) {
  const TemporaryFolder folder;
  const fs::path file = folder.write("bad.toml", text);
  return refusal([&] { read_magnet(file); }).substr(folder.path.string().size() + 1);
}

}  // namespace

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

TEST_CASE("a bad steel file is answered with file, line, key, value and what is allowed") {
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\n\nmu_r = 0.5\n") ==
        "bad.toml:4: mu_r = 0.5: must be a finite number of at least 1");
  CHECK(steel_refusal("law = \"linear\"\nmu_r = 5\n") ==
        "bad.toml: source is missing: say in one line who measured or published the numbers");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\nmur = 5\n") ==
        "bad.toml:3: mur: unknown key; did you mean mu_r?");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\nmu_r = \"5\"\n") ==
        "bad.toml:3: mu_r: must be a number");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\n") ==
        "bad.toml: mu_r is missing: law = \"linear\" needs mu_r");
  CHECK(steel_refusal("source = \"x\"\nh_A_per_m = [0, 100,\n  90]\nb_T = [0, 1, 1.1]\n") ==
        "bad.toml:3: point 3 (H = 90 A/m, B = 1.1 T): H must rise; the point before has 100 A/m");
  CHECK(steel_refusal("source = \"x\"\nh_A_per_m = [0, 100]\nb_T = [0, \"1\"]\n") ==
        "bad.toml:3: b_T: must be a list of numbers");
  CHECK(steel_refusal("source = 5\nlaw = \"linear\"\nmu_r = 5\n") ==
        "bad.toml:1: source: must be a text in quotes, not empty");
  CHECK(steel_refusal("source = \"x\"\nlaw = \"linear\"\nmu_r = 5\ndensity_kg_per_m3 = -1\n") ==
        "bad.toml:4: density_kg_per_m3 = -1: must be a finite number above 0");
  CHECK(steel_refusal("source = \"x\nlaw").rfind("bad.toml:1: not valid TOML: ", 0) == 0);
  CHECK(refusal([] { read_steel("/nowhere/steel.toml"); }) == "/nowhere/steel.toml: no such file");
}

TEST_CASE("a bad magnet file is answered with file, line, key, value and what is allowed") {
  CHECK(magnet_refusal("source = \"x\"\nremanence_T = 1.2\n") ==
        "bad.toml: recoil_permeability is missing: a magnet needs it");
  CHECK(
      magnet_refusal("source = \"x\"\nremanence_T = 1200\nrecoil_permeability = 1.05\n") ==
      "bad.toml:2: remanence_T = 1200: must be at most 3: no magnet exceeds 1.6 T; is the number in tesla?");
  CHECK(magnet_refusal(
            "source = \"x\"\nremanence_T = 1.2\nrecoil_permeability = 1.05\nremanence_high_T = 1.1\n") ==
        "bad.toml:4: remanence_high_T: must not be below remanence_T");
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
