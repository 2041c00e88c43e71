// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

namespace coilpull {

/// Folder with steels/, magnets/ and wire/: the environment's COILPULL_DATA; else data/ of the source tree
/// this was built from; else share/coilpull beside the running program's folder or under the installation
/// prefix.
/// @throws BadMaterial  when none exists, naming all places
std::filesystem::path data_directory();

}  // namespace coilpull
