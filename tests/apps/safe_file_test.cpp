// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/safe_file.hpp"

#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>
#include <sstream>

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

/// A folder of our own, gone afterwards.
struct Scratch {
  fs::path path = fs::temp_directory_path() / ("coilpull_test_" + std::to_string(::getpid()));
  Scratch() { fs::create_directories(path); }
  ~Scratch() { fs::remove_all(path); }
};

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
  const Scratch folder;
  std::ofstream(folder.path / "notes.txt") << "mine";
  write_safely(folder.path / "force_table.csv", "a much longer older content");
  write_safely(folder.path / "force_table.csv", "new\r\n");
  CHECK(read(folder.path / "force_table.csv") == "new\r\n");
  CHECK(read(folder.path / "notes.txt") == "mine");
  CHECK(entries(folder.path) == 2);
}

TEST_CASE("a folder that cannot be made is refused by name and reason") {
  const Scratch folder;
  std::ofstream(folder.path / "file") << "x";
  const fs::path below_a_file = folder.path / "file" / "out";
  CHECK_THROWS_WITH_AS(prepare_folder(below_a_file),
                       ("cannot write folder " + below_a_file.string() + ": Not a directory.").c_str(),
                       CannotWrite);
  CHECK_THROWS_AS(prepare_folder(folder.path / "file"), CannotWrite);
  CHECK(read(folder.path / "file") == "x");
}

TEST_CASE("a folder that takes no files is refused before anything is computed") {
  CHECK_THROWS_AS(prepare_folder("/proc"), CannotWrite);  // no user, root included, makes files there
}

TEST_CASE(
    "a file whose folder is missing, or whose name a folder has, is refused and nothing is left behind") {
  const Scratch folder;
  const fs::path nowhere = folder.path / "missing" / "a.csv";
  CHECK(words_of_refusal(nowhere) ==
        "cannot write file " + nowhere.string() + ": No such file or directory.");
  fs::create_directory(folder.path / "b.csv");
  CHECK(words_of_refusal(folder.path / "b.csv") ==
        "cannot write file " + (folder.path / "b.csv").string() + ": Is a directory.");
  CHECK(entries(folder.path) == 1);
}

TEST_CASE("a folder is made with those above it") {
  const Scratch folder;
  prepare_folder(folder.path / "a" / "b");
  CHECK(fs::is_directory(folder.path / "a" / "b"));
  CHECK(entries(folder.path / "a" / "b") == 0);
}
