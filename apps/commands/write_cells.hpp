// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "apps/commands/draw.hpp"
#include "apps/commands/solve.hpp"

namespace coilpull {

/// One solved point as a .vtu file at a place in the folder. @throws NoVtu, CannotWrite
void write_cells(const std::filesystem::path& folder, const std::filesystem::path& place,
                 const Device& device, const SolvedPoint& solved, const Measurement& row);

/// The field at every displacement, at the currents of the largest |force|, each solved once more:
/// vtu/field_000.vtu,
/// ... and force_table.pvd over them. Returns the latter. Rows without a field are left out.
/// @throws NoVtu, CannotWrite
Paths write_cells_along_stroke(const std::filesystem::path& folder, const Device& device,
                               const ForceTable& table);

}  // namespace coilpull
