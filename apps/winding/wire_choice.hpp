// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/judgement/force_grid.hpp"
#include "materials/wire.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// What drives the winding, and what it may be wound of.
struct WireChoice {
  double supply_V;        ///< > 0
  double source_ohm = 0;  ///< of supply, switch and leads
  double pulse_s = 0.01;  ///< how long the current flows
  Metal metal = Metal::copper;
  Grade grade = Grade::grade_2;
  bool by_gauge = false;  ///< sizes of ASTM B258 (AWG) instead of IEC 60317
};

/// The same window full of another wire.
struct WireRow {
  std::string size;  ///< "0.71 mm", "AWG 21"
  double bare_m, overall_m;
  double turns;   ///< the window is full
  double ohm;     ///< at the winding's temperature, source left out
  double ampere;  ///< once it has risen
  double ampere_turns;
  std::optional<double> force_N;  ///< strongest along the stroke, either polarity
  double displacement = 0;        ///< where [m]
  bool reversed = false;          ///< with negative current
  std::string why = {};           ///< what keeps the table from telling the force
  double heat_J;                  ///< in the winding, a pulse, as if the current stood at once
  double rise_K;                  ///< of the conductor by such a pulse, nothing flowing away
  double time_constant_s;         ///< inductance over all resistance; NaN: the table does not tell
  double wire_m, wire_kg;
};

/// One row a wire size, from thin to thick, of which ten turns or more fit. The field depends on ampere-turns
/// alone, so that a solved table tells the force of any wire in the same window: F(z, I) with I =
/// ampere-turns / turns of the table. Inductance likewise, with turns squared, between the currents nearest
/// to zero.
/// @param coil  a rectangle, alone in its circuit, which the table has    @throws BadCsv  when the table
/// lacks it
std::vector<WireRow> wire_rows(const Coil& coil, const ForceGrid& table, const WireChoice& choice);

}  // namespace coilpull
