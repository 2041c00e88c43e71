// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/safe_file.hpp"

#include <doctest/doctest.h>

#include <fstream>
#include <sstream>

#include "tests/apps/scratch_folder.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

std::string read(const fs::path& file) {
  std::ostringstream content;
  content << std::ifstream(file, std::ios::binary).rdbuf();
  return content.str();
}

std::size_t entries(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

std::string words_of_refusal(const fs::path& file) {
  try {
    write_safely(file, "x");
  } catch (const CannotWrite& e) {
    return e.what();
  }
  return "written";
}

}  // namespace

TEST_CASE("an older file is replaced as a whole, foreign files stay, nothing else is left behind") {
  const ScratchFolder scratch;
  std::ofstream(scratch.folder / "notes.txt") << "mine";
  write_safely(scratch.folder / "force_table.csv", "a much longer older content");
  write_safely(scratch.folder / "force_table.csv", "new\r\n");
  CHECK(read(scratch.folder / "force_table.csv") == "new\r\n");
  CHECK(read(scratch.folder / "notes.txt") == "mine");
  CHECK(entries(scratch.folder) == 2);
}

TEST_CASE("a folder that cannot be made is refused by name and reason") {
  const ScratchFolder scratch;
  std::ofstream(scratch.folder / "file") << "x";
  const fs::path below_a_file = scratch.folder / "file" / "out";
  CHECK_THROWS_WITH_AS(prepare_folder(below_a_file),
                       ("cannot write folder " + below_a_file.string() + ": Not a directory.").c_str(),
                       CannotWrite);
  CHECK_THROWS_AS(prepare_folder(scratch.folder / "file"), CannotWrite);
  CHECK(read(scratch.folder / "file") == "x");
}

TEST_CASE("a folder that takes no files is refused before anything is computed") {
  CHECK_THROWS_AS(prepare_folder("/proc"), CannotWrite);  // no user, root included, makes files there
}

TEST_CASE(
    "a file whose folder is missing, or whose name a folder has, is refused and nothing is left behind") {
  const ScratchFolder scratch;
  const fs::path nowhere = scratch.folder / "missing" / "a.csv";
  CHECK(words_of_refusal(nowhere) ==
        "cannot write file " + nowhere.string() + ": No such file or directory.");
  fs::create_directory(scratch.folder / "b.csv");
  CHECK(words_of_refusal(scratch.folder / "b.csv") ==
        "cannot write file " + (scratch.folder / "b.csv").string() + ": Is a directory.");
  CHECK(entries(scratch.folder) == 1);
}

TEST_CASE("a folder is made with those above it") {
  const ScratchFolder scratch;
  prepare_folder(scratch.folder / "a" / "b");
  CHECK(fs::is_directory(scratch.folder / "a" / "b"));
  CHECK(entries(scratch.folder / "a" / "b") == 0);
}
