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

TEST_CASE("a link that has the name of a file is replaced, and what it points to stays as it was") {
  const ScratchFolder scratch;
  const fs::path folder = scratch.folder / "out", other = scratch.write("other.csv", "of somebody else");
  fs::create_directory(folder);
  fs::create_symlink(other, folder / "force_table.csv");
  fs::create_symlink(scratch.folder / "missing", folder / "summary.txt");
  write_safely(folder / "force_table.csv", "ours");
  write_safely(folder / "summary.txt", "ours");
  CHECK(read(other) == "of somebody else");
  CHECK(!fs::exists(scratch.folder / "missing"));
  for (const char* name : {"force_table.csv", "summary.txt"}) {
    CHECK(!fs::is_symlink(folder / name));
    CHECK(read(folder / name) == "ours");
  }
}

TEST_CASE(
    "a link that has the name of a subfolder is refused by where it points, and nothing is written there") {
  const ScratchFolder scratch;
  const fs::path out = scratch.folder / "out", elsewhere = scratch.folder / "elsewhere";
  fs::create_directories(out);
  fs::create_directories(elsewhere);
  fs::create_symlink(elsewhere, out / "vtu");
  fs::create_symlink(scratch.folder / "missing", out / "materials");
  fs::create_directory(out / "deep");
  fs::create_symlink(elsewhere, out / "deep" / "below");
  const auto said_of = [&](const char* place) {
    try {
      write_below(out, place, "x");
    } catch (const CannotWrite& refused) {
      return scratch.without_path(refused.what());
    }
    return std::string("written");
  };
  const std::string advice =
      ".\n  Results stay inside their folder. Take the link away, or name another folder by -o.";
  CHECK(said_of("vtu/field_000.vtu") == "cannot write into out/vtu: it is a link to elsewhere" + advice);
  CHECK(said_of("materials/a/b.toml") == "cannot write into out/materials: it is a link to missing" + advice);
  CHECK(said_of("deep/below/x.csv") ==
        "cannot write into out/deep/below: it is a link to elsewhere" + advice);
  CHECK(entries(elsewhere) == 0);
  CHECK(!fs::exists(scratch.folder / "missing"));
  write_safely(scratch.folder / "taken", "a file");
  fs::rename(scratch.folder / "taken", out / "taken");
  CHECK(said_of("taken/x.csv") == "cannot write folder out/taken: Not a directory.");
}

TEST_CASE("the folder that a person names may be a link, and subfolders are made in what it points to") {
  const ScratchFolder scratch;
  const fs::path disk = scratch.folder / "big_disk", out = scratch.folder / "out";
  fs::create_directory(disk);
  fs::create_directory_symlink(disk, out);
  prepare_folder(out);
  write_below(out, "materials/0123/steel.toml", "x");
  write_below(out, "materials/0123/steel.toml", "y");
  CHECK(read(disk / "materials" / "0123" / "steel.toml") == "y");
  CHECK(entries(disk / "materials" / "0123") == 1);
}
