// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/origin.hpp"

#include <filesystem>
#include <utility>

#include "apps/device_file/canonical_text.hpp"
#include "apps/output/sha256.hpp"

namespace coilpull {
namespace {

std::vector<UsedMaterial> materials_of(const DeviceFile& file) {
  std::vector<UsedMaterial> used;
  for (const auto& [part, words] : file.words_of) {
    if (words.steel)
      used.push_back(
          {part, words.steel->name, words.steel->file.filename().string(), words.steel->file_text});
    if (words.grade)
      used.push_back(
          {part, words.grade->name, words.grade->file.filename().string(), words.grade->file_text});
  }
  return used;
}

}  // namespace

Origin origin_of(const DeviceFile& file) {
  return {file.device.title, std::filesystem::path(file.file_name).filename().string(), file.text,
          canonical_text(file), materials_of(file)};
}

InputFile input_file(const std::string& path, std::string sha256) {
  return {std::filesystem::path(path).filename().string(), std::move(sha256)};
}

InputFile input_file(const MaterialWords& material) {
  return input_file(material.file.string(), sha256(material.file_text));
}

}  // namespace coilpull
