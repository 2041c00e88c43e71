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
/// A link that has the name is replaced too; what it points to stays as it was.
/// @throws CannotWrite
void write_safely(const std::filesystem::path& file, const std::string& content);

/// The same for a file in a subfolder, which is made unless it is there. The folder itself may be a link: a
/// person has named it. Below it none is followed, so that nothing is written anywhere else.
/// @param place  relative to the folder: "vtu/field_000.vtu"
/// @throws CannotWrite  also for a subfolder that is a link: says where that points
void write_below(const std::filesystem::path& folder, const std::filesystem::path& place,
                 const std::string& content);

/// Makes the folder unless it is there, and finds out whether a file can be made in it, so that a long
/// run does not end with nowhere to put its result. Leaves what the folder holds alone.
/// @throws CannotWrite
void prepare_folder(const std::filesystem::path& folder);

/// For what a run will write into or below, before it begins. @throws CannotWrite  it is a link
void refuse_link(const std::filesystem::path& inside);

}  // namespace coilpull
