// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/input/force_table_file.hpp"

namespace coilpull {

/// The curves of the report as JSON that may stand in a page (no <): displacements in mm, a label a set of
/// currents, and for each the force with both bands and the flux linkages. null: not usable.
std::string chart_data(const ForceTableFile& table);

/// "-6 A", or "in 12 A, out 0 A".
std::string label_of(const ForceTableFile& table, std::size_t set);

/// The sets whose curves are shown at first: all up to nine, else evenly spread ones.
std::vector<std::size_t> curves_shown(const ForceTableFile& table);

}  // namespace coilpull
