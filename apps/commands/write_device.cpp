// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/write_device.hpp"

#include "apps/device_file/canonical_text.hpp"
#include "apps/device_file/exact_text.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sha256.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

/// A material that is named by a path, which ends so; one of the catalogue is known by its name.
bool is_path(const std::string& toml) {
  const std::string ending = ".toml\"";
  return toml.size() > ending.size() && toml.compare(toml.size() - ending.size(), ending.size(), ending) == 0;
}

const char* const copies = "materials";

template <class Material>
void copy_material(const fs::path& folder, const Material& material, PartWords& words,
                   std::vector<fs::path>& written) {
  if (!material || !is_path(words.material)) return;
  const fs::path place =
      fs::path(copies) / sha256(material->file_text).substr(0, 8) / material->file.filename();
  write_below(folder, place, material->file_text);
  written.push_back(folder / place);
  words.material = toml_text(place.generic_string());
}

}  // namespace

// NOLINTNEXTLINE(performance-unnecessary-value-param): the words of the copy are changed
std::vector<fs::path> write_device(const fs::path& folder, const std::string& name, DeviceFile file) {
  std::error_code none;
  if (fs::equivalent(folder / name, file.file_name, none)) return {};
  std::vector<fs::path> written = {folder / name};
  for (auto& [part, words] : file.words_of) {
    copy_material(folder, words.steel, words, written);
    copy_material(folder, words.grade, words, written);
  }
  write_safely(written.front(), canonical_text(file));
  return written;
}

void refuse_link_for_device(const fs::path& folder, const DeviceFile& file) {
  for (const auto& [part, words] : file.words_of)
    if ((words.steel || words.grade) && is_path(words.material)) refuse_link(folder / copies);
}

}  // namespace coilpull
