// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

#include "apps/exchange/array_module.hpp"

namespace coilpull {

/// This build has no libmatio and libnetcdf, or its module cannot be opened; says what to do.
struct NoArrays : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Opens the module, once for the whole run. @throws NoArrays
void require_arrays();

/// The bytes of such a file. @throws NoArrays, CannotWrite (no folder for temporary files)
std::string array_bytes(const SampledTable& table, ArrayFormat format);

}  // namespace coilpull
