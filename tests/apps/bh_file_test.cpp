// SPDX-License-Identifier: GPL-3.0-or-later
// Each tests/points/bad_*.csv is a file of points with one mistake; the .txt beside it holds the exact words
// that the person reads.
#include "apps/input/bh_file.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "apps/device_file/exact_text.hpp"
#include "apps/material/import_points.hpp"
#include "materials/bad_material.hpp"
#include "materials/soft_material.hpp"
#include "tests/apps/scratch_folder.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

namespace fs = std::filesystem;

std::string content_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

const ImportChoice plain{"bar", "ring test"};

std::string words_about(const fs::path& path) {
  try {
    CsvFile csv = read_csv_file(path);
    csv.name = path.filename().string();
    import_points(csv, plain);
  } catch (const BadCsv& refused) {
    std::string words = refused.what();
    const std::string folder = path.parent_path().string() + "/";
    if (words.rfind(folder, 0) == 0) words.erase(0, folder.size());
    return words + "\n";
  }
  return "";
}

BhFile read(const std::string& text) { return read_bh_file(read_csv_text(text, "p.csv")); }

ImportedMaterial import(const std::string& text, const ImportChoice& choice = plain) {
  return import_points(read_csv_text(text, "p.csv"), choice);
}

}  // namespace

TEST_CASE("every mistake in a file of points is refused with exactly the words that explain it") {
  int files = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(COILPULL_SOURCE_DIR) / "tests/points")) {
    if (entry.path().extension() != ".csv") continue;
    fs::path words = entry.path();
    words.replace_extension(".txt");
    INFO(entry.path().filename().string());
    CHECK(words_about(entry.path()) == content_of(words));
    ++files;
  }
  CHECK(files >= 30);
}

TEST_CASE("the same points in any of the usual units, separators and words are the same curve") {
  const BhFile expected = read("H (A/m),B (T)\n0,0\n79.57747154594767,0.8\n795.7747154594767,1.4\n");
  for (const char* text : {"# ring test\nH_A_per_m;B_T\n0;0\n79,57747154594767;0,8\n795,7747154594767;1,4\n",
                           "H [Oe]\tB [kG]\n0\t0\n1\t8\n10\t14\n",
                           "field strength in oersted,induction in gauss\n1,8000\n10,14000\n",
                           "H/kOe,B/mT\r\n0.001,800\r\n0.01,1400\r\n",
                           "no;H (kA/m);flux density (T)\n7;0,0795774715;0,8\n8;0,795774715;1,4\n",
                           "\xEF\xBB\xBFH (Oe),B-H (G)\n1,7999\n10,13990\n",
                           "H (Oe),J (T)\n1,0.7999\n10,1.399\n", "B (T),H (Oe)\n1.4,10\n0.8,1\n"}) {
    INFO(text);
    const BhFile file = read(text);
    REQUIRE(file.points.size() == 3);
    CHECK(file.points[0].h_A_per_m == 0);
    CHECK(file.points[0].b_T == 0);
    for (const std::size_t i : {1, 2}) {
      CHECK(file.points[i].h_A_per_m == near(expected.points[i].h_A_per_m, 1e-8));
      CHECK(file.points[i].b_T ==
            near(expected.points[i].b_T, 1e-8));  // mu0 of CGS and of SI agree to all digits
    }
  }
}

TEST_CASE("what was added or turned round is told") {
  CHECK(read("H (A/m),B (T)\n100,0.5\n200,0.9\n").notes ==
        std::vector<std::string>{"the point H = 0, B = 0 was added"});
  CHECK(read("H (A/m),B (T)\n200,0.9\n100,0.5\n0,0\n").notes ==
        std::vector<std::string>{"the points ran from strong to weak field; they were turned round"});
}

TEST_CASE("a material file that was written from points reads back as the same law") {
  ImportChoice choice{"my \"bar\"", "ring test of 3 May"};
  choice.certainty = "read: own measurement";
  choice.condition = "annealed";
  choice.saturation_polarization_T = 2.1;
  choice.initial_permeability = 300;
  const ImportedMaterial material = import("H (A/m),B (T)\n100,0.5\n300,0.95\n3000,1.55\n", choice);
  const ScratchFolder scratch;
  const SoftMaterial steel = read_steel(scratch.write("steel.toml", material_file_text(material, choice)));
  CHECK(steel.name == "my \"bar\"");
  CHECK(steel.source == "ring test of 3 May");
  CHECK(steel.evidence == Evidence::read);
  CHECK(*steel.range_to_A_per_m == 3000);
  for (const double b : {0.01, 0.4, 0.8, 1.3, 1.9, 2.5}) {
    CHECK(evaluate(steel.law, b).h == evaluate(material.law, b).h);
    CHECK(evaluate(steel.law, b).dh_db == evaluate(material.law, b).dh_db);
  }
}

TEST_CASE("a closed law can be written instead of the points, with what it misses them by") {
  ImportChoice choice = plain;
  choice.fit = "froehlich";
  const FroehlichLaw truth(2.0, 400);
  std::string text = "H (A/m),B (T)\n";
  for (const double h : {50.0, 200.0, 800.0, 3000.0, 20000.0})
    text += toml_number(h) + "," + toml_number(flux_density(truth, h)) + "\n";
  const ImportedMaterial material = import(text, choice);
  CHECK(material.numbers.law == "froehlich");
  CHECK(material.fit->largest_T < 1e-9);
  const std::string file = material_file_text(material, choice);
  CHECK(file.find("law = \"froehlich\"\n") != std::string::npos);
  CHECK(file.find("h_A_per_m = [") == std::string::npos);
  CHECK(import_text(material).find("misses the points by") != std::string::npos);
}

TEST_CASE("a file whose points fall and repeat is taken with smoothing, and each move is told") {
  ImportChoice choice = plain;
  choice.smooth = true;
  const ImportedMaterial material =
      import("H (A/m),B (T)\n100,0.50\n200,0.90\n200,0.94\n400,1.20\n350,1.22\n1000,1.40\n", choice);
  CHECK(material.points.size() == 6);
  CHECK(material.moved.size() == 6);
  CHECK(material.moved[4].before.line == 6);
  CHECK(material.moved[4].before.h_A_per_m == 350);
  CHECK(material.moved[4].b_T < 1.22);
  const std::string text = import_text(material);
  CHECK(text.find("Smoothed: points moved by ") != std::string::npos);
  CHECK(material_file_text(material, choice).find("# smoothed by least squares") != std::string::npos);
}

TEST_CASE("a certainty that is no word of ours, and a saturation below the points, are refused") {
  CHECK_THROWS_WITH_AS(
      evidence_of("sure"),
      "certainty = \"sure\": must start with read, recomputed, memory, estimate or invented; a colon "
      "and the reason may follow",
      BadMaterial);
  ImportChoice choice = plain;
  choice.saturation_polarization_T = 0.8;
  CHECK_THROWS_WITH_AS(
      import("H (A/m),B (T)\n100,0.5\n1000,1\n", choice),
      "saturation_polarization_T = 0.8: must be above B - mu0 H = 0.998743362938564 T of the "
      "last point",
      BadMaterial);
}
