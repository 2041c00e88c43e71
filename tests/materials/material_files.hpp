// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "materials/bad_material.hpp"
#include "materials/magnet_material.hpp"
#include "materials/soft_material.hpp"

namespace coilpull {

/// A folder of its own in the temporary directory, gone at the end.
struct TemporaryFolder {
  std::filesystem::path path;
  TemporaryFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "coilpull_catalogue_XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    path = pattern;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() { std::filesystem::remove_all(path); }

  std::filesystem::path write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories((path / name).parent_path());
    std::ofstream(path / name) << text;
    return path / name;
  }
};

/// What is said by what is thrown, "accepted" when nothing is.
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
inline std::string steel_refusal(const std::string& text) {
  const TemporaryFolder folder;
  const std::filesystem::path file = folder.write("bad.toml", text);
  const std::string words = refusal([&] { read_steel(file); });
  const std::string prefix = folder.path.string() + "/";
  return words.rfind(prefix, 0) == 0 ? words.substr(prefix.size()) : words;
}

inline std::string magnet_refusal(const std::string& text) {
  const TemporaryFolder folder;
  const std::filesystem::path file = folder.write("bad.toml", text);
  return refusal([&] { read_magnet(file); }).substr(folder.path.string().size() + 1);
}

}  // namespace coilpull
