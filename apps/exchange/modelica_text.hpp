// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/exchange/coenergy_table.hpp"

namespace coilpull {

/// A text file for Modelica.Blocks.Tables.CombiTable2Ds (Modelica Standard Library 4, Blocks.Tables): a
/// matrix double name(n + 1, m + 1) each for force, flux_linkage, force_per_ampere, inductance and coenergy;
/// the first row holds the currents u2, the first column the displacements u1. SI units.
/// @param file_name  for the wiring example in the comment
std::string modelica_text(const SampledTable& table, const std::string& file_name);

}  // namespace coilpull
