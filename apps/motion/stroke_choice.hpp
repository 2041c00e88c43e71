// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace coilpull {

/// How a stroke is begun and switched, besides what the device file says. Empty: the plain choice, which
/// plan_stroke tells.
struct StrokeChoice {
  std::optional<double> start_mm = {};
  double speed_m_per_s = 0;
  std::string sense = {};  ///< of the current: "plus", "minus"
  std::optional<double> on_mm = {}, off_mm = {}, off_after_ms = {}, reverse_until_mm = {};
  std::string on_by = {}, off_by = {};  ///< sensors that switch
  double delay_us = 0;                  ///< of the switch, on top of a sensor's
  std::optional<double> cut_off_ms = {};
  double until_ms = 200;
  int stages = 1;
  double pitch_mm = 0;  ///< of stages
  bool energy_return = false;
};

/// What a number of a choice may be, whatever the device.
struct ChoiceBounds {
  double least, most;
};
inline constexpr ChoiceBounds stroke_ms = {1e-3, 1e5}, switch_delay_us = {0, 1e8},
                              start_speed_m_per_s = {0, 1e4}, stroke_stages = {1, 100};

}  // namespace coilpull
