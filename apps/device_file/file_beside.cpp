// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/file_beside.hpp"

#include <algorithm>

namespace coilpull {
namespace {

namespace fs = std::filesystem;

bool lies_in(const fs::path& path, const fs::path& folder) {
  const auto [end_of_folder, rest] = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
  return end_of_folder == folder.end();
}

}  // namespace

fs::path file_beside(const Value& name, const fs::path& folder, const std::string& wanted,
                     const std::string& reader) {
  const std::string words = text(name);
  const std::string where = "A path starts in the folder of the " + reader +
                            ", stays in it or in the folder above, and ends in .toml.";
  if (fs::path(words).extension() != ".toml") refuse(name.place, "is no name of a " + wanted + ".", where);
  const fs::path path = folder / words;
  std::error_code error;
  if (!fs::is_regular_file(path, error)) refuse(name.place, "there is no such file.", where);
  const fs::path top = fs::canonical(folder.empty() ? "." : folder, error).parent_path();
  if (error || !lies_in(fs::canonical(path, error), top) || error)
    refuse(name.place, "lies outside of the folders where a " + reader + " may look.", where);
  return path;
}

}  // namespace coilpull
