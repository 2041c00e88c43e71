// SPDX-License-Identifier: GPL-3.0-or-later
// Device and material files may come from strangers: whatever stands in them is shown, never run, and leads
// to no file outside of the stated folders.
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "apps/device_file/read_device_file.hpp"
#include "apps/input/csv_file.hpp"
#include "apps/output/csv_cell.hpp"
#include "apps/output/html_writer.hpp"
#include "materials/bad_material.hpp"
#include "materials/soft_material.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

/// project/devices/, project/steels/good.toml, and other/good.toml out of reach; removed at the end.
class Project {
public:
  Project() : top(fs::temp_directory_path() / ("coilpull_files_" + std::to_string(getpid()))) {
    for (const char* folder : {"project/devices/below", "project/steels", "other"})
      fs::create_directories(top / folder);
    for (const char* file : {"project/steels/good.toml", "project/devices/good.toml",
                             "project/devices/below/good.toml", "other/good.toml"})
      std::ofstream(top / file) << "source = \"invented for this test\"\nlaw = \"linear\"\nmu_r = 100\n";
    fs::create_symlink(top / "other/good.toml", top / "project/devices/link.toml");
    std::ofstream(top / "project/devices/good.txt") << "x = 1\n";
  }
  ~Project() { fs::remove_all(top); }
  const fs::path top;

  /// What is said about a device whose core is made of `material`; empty when it is read.
  std::string words_about(const std::string& material) const {
    const std::string text =
        "[core.rod]\nmaterial = '" + material + "'\ncylinder = { radius_mm = 1, from_mm = 0, to_mm = 2 }\n";
    try {
      open_device_text(text, "rod.toml", top / "project/devices");
    } catch (const BadDevice& refused) {
      return refused.what();
    }
    return "";
  }
};

std::string words_about_name(const std::string& name) {
  try {
    open_device_text("[core.\"" + name +
                         "\"]\nmaterial = { law = \"linear\", mu_r = 2 }\n"
                         "cylinder = { radius_mm = 1, from_mm = 0, to_mm = 2 }\n",
                     "names.toml", "");
  } catch (const BadDevice& refused) {
    return refused.what();
  }
  return "";
}

bool says(const std::string& words, const std::string& what) { return words.find(what) != std::string::npos; }

/// The words with which a CSV file is refused; empty when it is read.
std::string refusal_of_csv(const fs::path& file) {
  try {
    read_csv_file(file);
  } catch (const BadCsv& refused) {
    return refused.what();
  }
  return "";
}

}  // namespace

TEST_CASE("a device file reaches material files beside it and one folder up, and no others") {
  const Project project;
  for (const char* within : {"good.toml", "./good.toml", "below/good.toml", "../steels/good.toml"})
    CHECK(project.words_about(within) == "");
  for (const std::string& outside :
       {std::string("../../other/good.toml"), (project.top / "other/good.toml").string(),
        std::string("below/../../../other/good.toml"), std::string("link.toml")})
    CHECK(says(project.words_about(outside), "lies outside"));
}

TEST_CASE("only regular files that end in .toml are opened as materials") {
  const Project project;
  for (const char* other :
       {"/etc/passwd", "/dev/zero", "/dev/stdin", "./good.txt", "below/", "./", "/proc/self/environ"})
    CHECK(says(project.words_about(other), "is no name of a material file"));
  CHECK(says(project.words_about("/dev/zero.toml"), "there is no such file"));
  fs::create_directory(project.top / "project/devices/folder.toml");
  CHECK(says(project.words_about("folder.toml"), "there is no such file"));
}

TEST_CASE("a name that could leave a folder, a tag or a cell is no name") {
  for (const char* name :
       {"<script>", "=1+1", "../x", "a/b", "a b", "@x", "a,b", "a;b", ".", "", "%s", "$(id)", "`id`"})
    CHECK(says(words_about_name(name), "a name has letters, digits, _ and - only"));
  CHECK(words_about_name("rod-2_b") == "");
}

TEST_CASE("a spreadsheet computes no cell that is words") {
  CHECK(csv_cell("=1+1") == "'=1+1");
  CHECK(csv_cell("@SUM(A1)") == "'@SUM(A1)");
  CHECK(csv_cell("-2+3") == "'-2+3");
  CHECK(csv_cell("+cmd") == "'+cmd");
  CHECK(csv_cell("=\"a\",b") == "\"'=\"\"a\"\",b\"");
  for (const char* kept : {"-0.25", "1e-300", "-1e+20", "NaN", "ok", "", "a = b"})
    CHECK(csv_cell(kept) == kept);
}

TEST_CASE("no title and no material name becomes a tag") {
  HtmlWriter page;
  page.element("h1", "<script>alert(1)</script>", {{"title", "\" onload=\"x"}});
  CHECK(!says(page.document("en"), "<script"));
  CHECK(!says(page.document("en"), "\" onload"));
}

TEST_CASE("files too large for what they should be are refused before they fill the memory") {
  const Project project;
  const fs::path large = project.top / "project/devices/large.toml";
  std::ofstream(large) << "x";
  fs::resize_file(large, (4u << 20) + 1);  // sparse: costs no disk
  CHECK_THROWS_WITH_AS(open_device_file(large), doctest::Contains("is larger than 4 MiB"), BadDevice);
  CHECK_THROWS_WITH_AS(read_steel(large), doctest::Contains("is larger than 4 MiB"), BadMaterial);
  CHECK_THROWS_AS(open_device_file("/dev/zero"), BadDevice);  // no size of its own, and no end
  fs::resize_file(large, (128u << 20) + 1);
  CHECK(says(refusal_of_csv(large), "is larger than 128 MiB"));
}

}  // namespace coilpull
