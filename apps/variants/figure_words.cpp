// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/figure_words.hpp"

#include <algorithm>

namespace coilpull {

const std::vector<FigureWords>& figure_words() {
  static const std::vector<FigureWords> words = {
      {"force_N", "largest |force| of the table"},
      {"push_N", "largest force along +z"},
      {"pull_N", "largest force along -z"},
      {"force_off_N", "largest |force| with every current 0; needs rows with the current off"},
      {"least_push_N",
       "smallest force along the stroke, with the best current of the table at each displacement"},
      {"work_J", "most work along the stroke one way, the current kept"},
      {"switched_work_J", "work towards +z with the best current of the table at each displacement"},
      {"full_A", "weakest current at which some core is full"},
      {"past_knee_percent", "largest share of a magnet's volume past its knee, in any row"},
      {"core_T", "largest flux density that 99 % of a core stays below, in any row"},
      {"current_A", "largest |current| of the table"},
      {"heat_W",
       "heat of all coils at the strongest current of each, at their temperature; needs their wires"},
      {"rise_K_per_s",
       "how fast the hottest coil warms at its strongest current, no heat flowing away; needs the wires"},
      {"pulse_rise_K",
       "how much the hottest winding warms in one pulse of [duty] pulse_ms, fed by [supply]; needs the "
       "wires"},
      {"steady_degC",
       "of the hottest winding after long running with [duty] strokes_per_minute; unknown where it runs "
       "away"},
      {"wire_g", "mass of the wire of all coils without insulation; needs their wires"},
      {"winding_cm3", "volume of all windings"},
      {"core_cm3", "volume of all cores"},
      {"magnet_cm3", "volume of all magnets"},
      {"length_mm", "of all parts as drawn, along z"},
      {"diameter_mm", "of all parts"},
      {"exit_speed_m_per_s", "speed with which the mover leaves the stroke; known when it leaves ahead",
       true},
      {"exit_energy_J", "kinetic energy with which it leaves", true},
      {"exit_ms", "time until it leaves", true},
      {"top_speed_m_per_s", "highest speed on the way", true},
      {"efficiency_percent", "kinetic energy gained over energy delivered", true},
      {"switched_on_mm", "displacement at which a stage is switched on, when it is by displacement", true},
      {"switched_off_mm", "the same, off", true},
      {"stroke_current_A", "largest |current| of a winding in the stroke", true},
      {"stroke_voltage_V", "largest |voltage| across a winding in the stroke", true},
      {"stroke_degC", "of the hottest winding in the stroke, from the ambient of [duty] on", true},
      {"stroke_rise_K", "how much the hottest winding warms in the stroke", true}};
  return words;
}

std::vector<std::string> figure_names() {
  std::vector<std::string> names;
  for (const FigureWords& words : figure_words()) names.push_back(words.name);
  return names;
}

bool is_stroke_figure(const std::string& name) {
  const auto& all = figure_words();
  return std::any_of(all.begin(), all.end(),
                     [&](const FigureWords& words) { return words.of_stroke && words.name == name; });
}

}  // namespace coilpull
