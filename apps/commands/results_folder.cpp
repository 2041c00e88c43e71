// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/results_folder.hpp"

#include "apps/output/safe_file.hpp"

namespace coilpull {

std::filesystem::path results_folder(const std::filesystem::path& device_file,
                                     const std::filesystem::path& chosen) {
  const std::filesystem::path folder =
      chosen.empty() ? std::filesystem::path(device_file.stem().string() + "_out") : chosen;
  prepare_folder(folder);
  return folder;
}

std::string written_text(const std::vector<std::filesystem::path>& files) {
  std::string text;
  for (const std::filesystem::path& file : files) {
    if (file.extension() == ".svg") continue;
    text += (text.empty() ? "Written: " : "         ") + file.string() +
            (file.extension() == ".png" ? " and .svg\n" : "\n");
  }
  return text;
}

}  // namespace coilpull
