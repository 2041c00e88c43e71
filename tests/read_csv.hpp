// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/validation/published_file.hpp"

namespace coilpull {

/// @param path  from the top of the source tree, e.g. "data/published/wire_awg.csv"
inline CsvTable read_csv(const std::string& path) {
  return read_published_file(std::string(COILPULL_SOURCE_DIR) + "/" + path);
}

}  // namespace coilpull
