// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/exchange/coenergy_table.hpp"

namespace coilpull {

enum class ArrayFormat { mat, netcdf };

/// What goes into an array file besides the arrays; all plain_text().
struct ArrayFile {
  std::vector<NamedArray> arrays;
  std::string title, circuit, notes;
};

/// What the module coilpull_arrays offers, apart from the program because its libraries bring HDF5: a MATLAB
/// level 5 file by libmatio, or NetCDF-4 by libnetcdf, at `path`. On trouble false and the reason.
using WriteArrays = bool (*)(const ArrayFile& file, ArrayFormat format, const char* path,
                             std::string& trouble);
inline constexpr const char* write_arrays_name = "coilpull_write_arrays";

}  // namespace coilpull
