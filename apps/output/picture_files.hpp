// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/output/canvas.hpp"

namespace coilpull {

/// Writes <stem>.png (twice the size in pixels) and <stem>.svg into the folder; returns both paths.
/// @throws CannotWrite
std::vector<std::filesystem::path> write_picture(const Canvas& canvas, const std::filesystem::path& folder,
                                                 const std::string& stem, const std::string& title);

}  // namespace coilpull
