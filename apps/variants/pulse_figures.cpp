// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/pulse_figures.hpp"

#include <algorithm>
#include <cmath>

#include "apps/advice/heat_advice.hpp"

namespace coilpull {

Figures pulse_figures(const DeviceFile& file) {
  const Device& device = file.device;
  if (!file.operation.duty || !file.operation.duty->pulse || device.coils.empty()) return {};
  double rise_K = 0, steady = -HUGE_VAL;
  bool is_steady = file.operation.duty->strokes_per_s.has_value();
  for (std::size_t k = 0; k < device.circuits.size(); ++k) {
    double strongest = 0;
    for (const auto& set : device.currents_A) strongest = std::max(strongest, std::abs(set.at(k)));
    const auto heat = pulse_heat(file, device.circuits[k], strongest);
    if (!heat) return {};
    rise_K = std::max(rise_K, heat->pulse_degC - heat->start_degC);
    is_steady = is_steady && heat->steady_degC;
    if (is_steady) steady = std::max(steady, *heat->steady_degC);
  }
  Figures figures = {{"pulse_rise_K", {rise_K, 0}}};
  if (is_steady) figures["steady_degC"] = {steady, 0};
  return figures;
}

}  // namespace coilpull
