// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

namespace coilpull {

/// What happens in a stroke between two of its pieces.
enum class StrokeEvent {
  switched_on,
  switched_reversed,
  switched_off,
  capacitor_empty,
  limit_reached,
  limit_left,
  current_died,  ///< diode or clamp let go
  taken_over,    ///< the motion's voltage opened diode or clamp
  stuck,
  broke_loose,
  turned_round,
  hit_low,
  hit_high
};
const char* word_for(StrokeEvent event);

struct StrokeEventAt {
  StrokeEvent event;
  double time_s;
  std::size_t stage = 0;  ///< of what happens in a circuit
};

}  // namespace coilpull
