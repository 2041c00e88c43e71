// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/input/csv_file.hpp"

namespace coilpull {

/// @param path  from the top of the source tree, e.g. "data/published/wire_awg.csv"
inline CsvFile read_csv(const std::string& path) {
  return read_csv_file(std::string(COILPULL_SOURCE_DIR) + "/" + path);
}

}  // namespace coilpull
