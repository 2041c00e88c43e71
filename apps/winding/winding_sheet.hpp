// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "apps/device_file/winding_fit.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// What a winder wants to know of one coil before the first turn.
struct WindingSheet {
  Window window;                 ///< what the bobbin leaves to the turns
  bool is_rectangle;             ///< else window is only the box around it, and turns are not counted
  double turns;                  ///< as the file asks
  double in_rows, nested;        ///< turns that fit
  double turns_a_layer, layers;  ///< in straight rows, layers full
  double turn_m;                 ///< mean length of a turn
  double wire_m, wire_kg;        ///< all turns; the mass without insulation
  double resistance_20_ohm, resistance_ohm;  ///< at 20 degC and at the winding's temperature
  double fill;                               ///< conductor over the winding's section
};

/// Nothing without a wire. Turns are spread evenly: the mean turn is 2 pi r at the centroid of the section.
std::optional<WindingSheet> winding_sheet(const Coil& coil);

}  // namespace coilpull
