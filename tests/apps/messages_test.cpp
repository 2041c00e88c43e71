// SPDX-License-Identifier: GPL-3.0-or-later
// Each tests/messages/bad_*.toml is a device file with one mistake; the .txt beside it holds the exact words
// that the person reads. Only their first line may name a place, and that place has to be right.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "tests/near.hpp"

namespace coilpull {

namespace {

namespace fs = std::filesystem;

std::string content_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<fs::path> files_ending_in(const std::string& ending) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(fs::path(COILPULL_SOURCE_DIR) / "tests/messages"))
    if (entry.path().extension() == ending) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

/// What the reader says; empty when it accepts the file. Paths to materials are looked up in the working
/// folder.
std::string words_about(const fs::path& path) {
  try {
    open_device_text(content_of(path), path.filename().string(), "");
  } catch (const BadDevice& refused) {
    return std::string(refused.what()) + "\n";
  }
  return "";
}

}  // namespace

TEST_CASE("every mistake in a device file is refused with exactly the words that explain it") {
  const std::vector<fs::path> mistakes = files_ending_in(".toml");
  CHECK(mistakes.size() >= 45);
  for (const fs::path& path : mistakes) {
    fs::path words = path;
    words.replace_extension(".txt");
    INFO(path.filename().string());
    CHECK(words_about(path) == content_of(words));
  }
}

TEST_CASE("no expected message has lost its mistake") {
  for (fs::path path : files_ending_in(".txt")) {
    INFO(path.filename().string());
    CHECK(fs::exists(path.replace_extension(".toml")));
  }
}

}  // namespace coilpull
