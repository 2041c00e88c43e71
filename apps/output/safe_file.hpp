// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

namespace coilpull {

/// A file or folder that could not be written; says which and why.
struct CannotWrite : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Replaces the file as a whole or not at all: the content goes to a new file in the same folder, reaches
/// the disk, then takes the name. Nobody ever sees half a file, and an older one stays until the end.
/// @throws CannotWrite
void write_safely(const std::filesystem::path& file, const std::string& content);

/// Makes the folder unless it is there, and finds out whether a file can be made in it, so that a long
/// run does not end with nowhere to put its result. Leaves what the folder holds alone.
/// @throws CannotWrite
void prepare_folder(const std::filesystem::path& folder);

}  // namespace coilpull
