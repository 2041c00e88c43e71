// SPDX-License-Identifier: GPL-3.0-or-later
// Words, names and numbers of parts that a stranger may have written into a file: what a terminal would obey,
// what would fill a page, and what takes hours to check.
#include <filesystem>

#include "apps/device_file/read_device_file.hpp"
#include "apps/output/plain_text.hpp"
#include "apps/variants/variants_file.hpp"
#include "materials/bad_material.hpp"
#include "materials/detail/deep_keys.hpp"
#include "materials/soft_material.hpp"
#include "tests/apps/scratch_folder.hpp"
#include "tests/near.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

const char* const rod = "[core.rod]\nmaterial = { law = \"linear\", mu_r = 2 }\n";
const char* const cylinder = "cylinder = { radius_mm = 1, from_mm = 0, to_mm = 2 }\n";

/// What is said about the text as a device file; empty when it is read.
std::string said_about(const std::string& text) {
  try {
    open_device_text(text, "rod.toml", "");
  } catch (const BadDevice& refused) {
    return refused.what();
  }
  return "";
}

std::string said_about_title(const std::string& title) {
  return said_about("title = \"" + title + "\"\n" + rod + cylinder);
}

std::string said_about_source(const std::string& source) {
  const ScratchFolder scratch;
  try {
    read_steel(scratch.write("steel.toml", "source = \"" + source + "\"\nlaw = \"linear\"\nmu_r = 100\n"));
  } catch (const BadMaterial& refused) {
    return scratch.without_path(refused.what());
  }
  return "";
}

bool says(const std::string& words, const std::string& what) { return words.find(what) != std::string::npos; }

std::string repeated(const std::string& words, int times) {
  std::string all;
  for (int k = 0; k < times; ++k) all += words;
  return all;
}

}  // namespace

TEST_CASE("a title or a source that a terminal would obey is refused at its place") {
  // ISO 6429: ESC ] sets the title of a window, U+009B starts a control sequence; UAX 9: U+202E turns the
  // line
  for (const char* obeyed : {"\\u001b]0;x\\u0007", "a\\u0000b", "a\\nb", "\\u009b31m", "\\u007f"}) {
    CHECK(says(said_about_title(obeyed), "rod.toml:1: title = "));
    CHECK(says(said_about_title(obeyed), "has a control character"));
  }
  CHECK(says(said_about_title("\\u202Ekcab"), "turns the direction of writing, as letter 1"));
  CHECK(says(said_about_source("\\u001b[31m"), "steel.toml:1: source: has a control character"));
  CHECK(said_about_title("a\\tb") == "");
  CHECK(said_about_source("two\\nlines") == "");  // becomes one
  CHECK(said_about_title("<b>\xC3\x9C & \xE2\x82\xAC \xE5\x8A\x9B</b> =1+1") == "");
}

TEST_CASE("words have a length up to which they are shown") {
  CHECK(said_about_title(std::string(200, 'x')) == "");
  CHECK(said_about_title(repeated("\xC3\x9C", 200)) == "");  // letters count, not bytes
  CHECK(says(said_about_title(std::string(201, 'x')), "has 201 letters; at most 200 are taken"));
  CHECK(said_about_source(std::string(1000, 'x')) == "");
  CHECK(says(said_about_source(std::string(1001, 'x')), "source: has 1001 letters; at most 1000 are taken"));
}

TEST_CASE("a name is short enough for the name of a file") {
  const std::string long_name(61, 'n');
  CHECK(says(said_about("[core." + long_name + "]\n"), "at most 60 of them"));
  CHECK(says(
      said_about("[coil.a]\ntube = { inner_radius_mm = 1, outer_radius_mm = 2, from_mm = 0, to_mm = 1 }\n"
                 "turns = 1\ncircuit = \"" +
                 long_name + "\"\n"),
      "at most 60 of them"));
}

TEST_CASE("a device has as many parts and edges as its checks get through in seconds") {
  std::string parts;
  for (int k = 0; k < 301; ++k)
    parts += "[core.c" + std::to_string(k) + "]\nmaterial = { law = \"linear\", mu_r = 2 }\n" + cylinder;
  CHECK(says(said_about(parts), "there are 301 of a kind"));
  std::string ring;
  for (int k = 0; k < 1000; ++k)
    ring += "{ r_mm = " + std::to_string(20 + 5 * std::cos(k * 0.00628)) +
            ", z_mm = " + std::to_string(5 * std::sin(k * 0.00628)) + " },";
  std::string edges;
  for (int k = 0; k < 6; ++k)
    edges += "[core.c" + std::to_string(k) + "]\nmaterial = { law = \"linear\", mu_r = 2 }\nprofile = [" +
             ring + "]\n";
  CHECK(says(said_about(edges), "edges in all"));
}

TEST_CASE("a key with more parts than the reader of TOML survives is refused with its line") {
  const std::string deep = repeated("a.", 100000) + "a";
  CHECK(says(said_about("\n" + deep + " = 1\n"), "rod.toml:2: a key has more than 32 parts"));
  CHECK(says(said_about("[" + deep + "]\n"), "rod.toml:1: a key has more than 32 parts"));
  const ScratchFolder scratch;
  CHECK_THROWS_WITH_AS(read_steel(scratch.write("steel.toml", deep + " = 1\n")),
                       doctest::Contains("steel.toml:1: a key has more than 32 parts"), BadMaterial);
}

TEST_CASE("strings and comments hide no dots, and lend none") {
  using detail::line_of_deep_key;
  const std::string deep = repeated("a.", 40) + "a = 1";
  CHECK(line_of_deep_key(repeated("\"=\".'#'.", 20) + "a = 1") == 1);
  CHECK(line_of_deep_key("x = \"\"\"a\n" + repeated("a.", 40) + "\n\"\"\"\n" + deep) == 4);
  CHECK(line_of_deep_key("x = { a = \"\"\"b\"\"\"\"\", " + deep + " }") == 1);
  CHECK(line_of_deep_key("x = '\\'\n" + deep) == 2);
  CHECK(line_of_deep_key("# " + deep + "\nx = \"" + repeated("A. B. ", 40) + "\"") == 0);
  CHECK(line_of_deep_key("x = [" + repeated("1.5, ", 1000) + "]") == 0);
  for (const char* open : {"x = \"a", "x = \"\"\"", "x = \"\\", "x = '", ""})
    CHECK(line_of_deep_key(open) == 0);
}

TEST_CASE("words of files that are told on a screen lose what it would obey and keep their lines") {
  CHECK(plain_lines("a\x1b[31mb\n  c\xC2\x9B\xE2\x80\xAE\n") == "a [31mb\n  c  \n");
  CHECK(plain_lines("") == "");
  CHECK(plain_text("\xE2\x80\xAE*/") == " */");
}

TEST_CASE("a variants file reaches the device file beside it or one folder up, and no other") {
  const ScratchFolder scratch;
  fs::create_directories(scratch.folder / "project/many");
  fs::create_directories(scratch.folder / "project/devices");
  const std::string device = rod + std::string(cylinder);
  for (const char* place : {"project/many/d.toml", "project/devices/d.toml", "d.toml"})
    scratch.write(place, device);
  const auto said = [&](const std::string& path) {
    try {
      read_variants_text("device = '" + path + "'\n[vary]\ncore.rod.cylinder.radius_mm = [1, 2]\n",
                         scratch.folder / "project/many/many.toml");
    } catch (const BadDevice& refused) {
      return scratch.without_path(refused.what());
    }
    return std::string();
  };
  CHECK(said("d.toml") == "");
  CHECK(said("../devices/d.toml") == "");
  for (const std::string& outside : {std::string("../../d.toml"), (scratch.folder / "d.toml").string()})
    CHECK(says(said(outside), "lies outside of the folders where a variants file may look"));
  CHECK(says(said("/etc/passwd"), "is no name of a device file"));
}

TEST_CASE("a date as what a key may be is no number of zero") {
  const ScratchFolder scratch;
  scratch.write("d.toml", rod + std::string(cylinder));
  const VariantsFile file =
      read_variants_text("device = \"d.toml\"\n[vary]\ncore.rod.cylinder.from_mm = [1979-05-27]\n",
                         scratch.folder / "many.toml");
  CHECK(says(said_about(file.device_text.with({{"core.rod.cylinder.from_mm", file.vary[0].values[0]}})),
             "needs a number"));
}

}  // namespace coilpull
