// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>

#include "apps/variants/figure_words.hpp"
#include "solver/device/device.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// What a solved variant comes to, by name. A goal or a limit is one of these.
using Figures = std::map<std::string, Measured>;

/// Every figure that the device and its table tell, however it is used; those they do not tell are missing.
/// Bars are those of the rows; what is drawn or wound has the bar 0.
Figures figures_of(const Device& device, const ForceTable& table);

}  // namespace coilpull
