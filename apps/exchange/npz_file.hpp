// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/exchange/coenergy_table.hpp"

namespace coilpull {

/// The bytes of a NumPy .npz: a ZIP archive of arrays in the NPY format, version 1.0 (NumPy Enhancement
/// Proposal 1), doubles little-endian, C order; title, circuit and notes as arrays of letters. The same table
/// gives the same bytes.
std::string npz_bytes(const SampledTable& table);

}  // namespace coilpull
