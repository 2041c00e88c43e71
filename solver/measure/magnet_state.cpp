// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/magnet_state.hpp"

#include <cmath>

#include "materials/detail/nan.hpp"

namespace coilpull {

std::vector<MagnetState> magnet_states(const Device& device, const std::vector<VolumeSampler>& in_magnets,
                                       const Field& field) {
  std::vector<MagnetState> states;
  for (std::size_t k = 0; k < device.magnets.size(); ++k) {
    const Magnet& magnet = device.magnets[k];
    const double size = std::hypot(magnet.law.remanence_r_T, magnet.law.remanence_z_T);
    const double r = magnet.law.remanence_r_T / size, z = magnet.law.remanence_z_T / size;
    const auto along = [r, z](double b_r, double b_z) { return r * b_r + z * b_z; };
    const std::vector<VolumeSample> samples = in_magnets[k].of(field, along);
    states.push_back({percentile(samples, 0.01), mean(samples),
                      magnet.knee_T ? fraction_below(samples, *magnet.knee_T) : nan});
  }
  return states;
}

}  // namespace coilpull
