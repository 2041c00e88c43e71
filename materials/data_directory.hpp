// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

namespace coilpull {

/// Folder with steels/, magnets/ and wire/: the environment's COILPULL_DATA; else share/coilpull beside the
/// folder of the running program, which an installed program has; else data/ of the source tree this was
/// built from; else share/coilpull under the installation prefix.
/// @throws BadMaterial  when none exists, naming all places
std::filesystem::path data_directory();

}  // namespace coilpull
