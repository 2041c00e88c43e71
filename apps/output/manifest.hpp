// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/output/origin.hpp"

namespace coilpull {

/// A file that a run has left.
struct ResultFile {
  std::string name;    ///< relative to the description beside it
  std::string sha256;  ///< of its bytes
};

/// The whole of <result>-metadata.json for results whose columns are not described one by one: title,
/// program, command and inputs as csvw_metadata() has them, and the hash of each file that was left, so that
/// a file that is of another run is seen. CSV files are listed as the tables of a group (CSVW).
std::string manifest(const RunOrigin& run, const std::vector<ResultFile>& results);

}  // namespace coilpull
