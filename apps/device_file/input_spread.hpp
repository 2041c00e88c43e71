// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "apps/device_file/table.hpp"

namespace coilpull {

/// How well the input is known, from [spread] of the device file. What is not stated there is a default of
/// common practice without a source.
struct InputSpread {
  double position_m = 0.05e-3;  ///< half range of every displacement, so of every axial gap that moves
  double temperature_K = 15;    ///< half range about the temperature of the magnets
  std::optional<double> remanence =
      {};  ///< half range, fraction; empty: the grade's, or 3 % where it states none
  double polarization =
      0.03;  ///< half range of a steel, fraction; of a pair of bounds, both are taken instead
};

/// [spread] position_mm, temperature_K, remanence_percent, polarization_percent. @throws BadDevice
InputSpread read_spread(const Table& root);

}  // namespace coilpull
