// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

/// A folder of its own that goes with the test.
struct ScratchFolder {
  std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("coilpull_test_" + std::to_string(getpid()));
  ScratchFolder() { std::filesystem::remove_all(folder), std::filesystem::create_directories(folder); }
  ~ScratchFolder() { std::filesystem::remove_all(folder); }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  std::filesystem::path write(const std::string& name, const std::string& words) const {
    std::ofstream(folder / name) << words;
    return folder / name;
  }

  /// A message with the folder's path taken out.
  std::string without_path(std::string said) const {
    for (std::size_t at; (at = said.find(folder.string() + "/")) != std::string::npos;)
      said.erase(at, folder.string().size() + 1);
    return said;
  }
};
