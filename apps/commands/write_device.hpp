// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"

namespace coilpull {

/// Writes a device in full, with copies of the material files that it names by their paths:
/// materials/<first digits of its SHA-256>/<its name>, where the written text looks for them. The folder can
/// be moved or sent away and run again; a copy is never replaced by another text. Materials of the catalogue
/// stay names. A device file that would be replaced by its own description stays as the person wrote it.
/// Returns what was written. @throws CannotWrite  also when materials/ is a link, see write_below
std::vector<std::filesystem::path> write_device(const std::filesystem::path& folder, const std::string& name,
                                                DeviceFile file);

/// What would stop write_device, known before anything is solved. @throws CannotWrite
void refuse_link_for_device(const std::filesystem::path& folder, const DeviceFile& file);

}  // namespace coilpull
