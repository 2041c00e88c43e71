// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/output/section_view.hpp"
#include "solver/device/device.hpp"
#include "solver/field/field.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

using Paths = std::vector<std::filesystem::path>;

/// Whether and how a verb draws.
struct PictureChoice {
  bool wanted = true;
  Halves halves = Halves::both;
};

/// device.png and .svg. @throws CannotWrite
Paths draw_device_into(const std::filesystem::path& folder, const Device& device, Halves halves);

/// The device, force and linkage curves, B-H curves, and the field where the table is most telling: strongest
/// push, strongest pull, and the current off at the place of the first of these. What cannot be solved is
/// left out.
/// @throws CannotWrite
Paths draw_table_into(const std::filesystem::path& folder, const Device& device, const ForceTable& table,
                      Halves halves);

/// <stem>.png and .svg: |B| and flux lines at one row of the table.
Paths draw_field_into(const std::filesystem::path& folder, const std::string& stem, const Device& device,
                      const ForceTable& table, const Measurement& row, const Field& field, Halves halves);

}  // namespace coilpull
