// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "apps/device_file/table.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// [current] of a device whose circuits and displacements are known: <circuit>_A of every circuit, and
/// together. A device without coils has one empty set of currents.
/// @throws BadDevice  also when the table would be too long
void read_current(const Table& root, Device& device);

/// Every combination of the circuits' currents, the first circuit slowest.
/// lists: one list a circuit; returns: one entry a combination, a current per circuit. No circuit: one empty
/// entry.
std::vector<std::vector<double>> crossed(const std::vector<std::vector<double>>& lists);

/// The n-th currents of all lists together; a list of one number holds for every entry.
/// All lists longer than 1 have the same length.
std::vector<std::vector<double>> side_by_side(const std::vector<std::vector<double>>& lists);

}  // namespace coilpull
