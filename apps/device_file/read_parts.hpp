// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/device_file/part_material.hpp"
#include "apps/device_file/part_words.hpp"
#include "apps/device_file/table.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

// words: set to how the file speaks of the part, in canonical form.

/// [core.<name>]  material, stacking_factor, shape. @throws BadDevice
Core read_core(const std::string& name, const Table& table, MaterialSources& sources, PartWords& words);

/// [coil.<name>]  shape, turns, circuit, sense, wire, bobbin, packing, temperature. @throws BadDevice, also
/// when the wire does not fit
Coil read_coil(const std::string& name, const Table& table);

/// [magnet.<name>]  material, temperature, shape, magnetised. @throws BadDevice
Magnet read_magnet(const std::string& name, const Table& table, MaterialSources& sources, PartWords& words);

/// At most 60 letters, digits, _ and -: names become columns of tables and names of files.
bool is_plain_name(const std::string& name);

}  // namespace coilpull
