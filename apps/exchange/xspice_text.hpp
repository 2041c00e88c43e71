// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/exchange/coenergy_table.hpp"

namespace coilpull {

/// Files for the XSPICE code model table2d: a comment line, the two sizes, displacements [m], currents [A],
/// then a row of values for each current (ngspice manual, section "2D table model"). Names in lower case:
/// ngspice reads no others.
std::string xspice_force(const SampledTable& table);
std::string xspice_linkage(const SampledTable& table);

/// A subcircuit that reads both: coil terminals, displacement and force as voltages; with an example of its
/// use.
/// @param name  [a-z0-9_], of the subcircuit, and of the files <name>_force.table and <name>_linkage.table
std::string xspice_subcircuit(const SampledTable& table, const std::string& name);

}  // namespace coilpull
