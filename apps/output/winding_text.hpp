// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/winding/wire_choice.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// The winding sheet of every coil that names its wire: what fits, layers, length, mass, resistance, fill.
std::string winding_sheets_text(const Device& device);

/// A line a wire size, with the conditions above them and what they leave out below.
std::string wire_choice_text(const Coil& coil, const WireChoice& choice, const std::vector<WireRow>& rows);

/// The same as CSV.
std::string wire_choice_csv(const std::vector<WireRow>& rows);

}  // namespace coilpull
