// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <stdexcept>

#include "apps/output/vtu_cells.hpp"

namespace coilpull {

/// This build has no VTK, or its module cannot be opened; says what to do.
struct NoVtu : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Opens the module, once for the whole run. @throws NoVtu
void require_vtu();

/// VTK XML unstructured grid: A_phi, psi, B, H at the points of curved cells of the sample's order, J_phi and
/// part by cell, names and displacement as field data. x is r, y is z, in metres.
/// @param place  of the file in the folder, see write_below    @throws NoVtu, CannotWrite
void write_vtu(const std::filesystem::path& folder, const std::filesystem::path& place,
               const VtuCells& cells);

/// A collection of such files over the displacement, for viewers that step through them. Names relative to
/// it.
struct VtuStep {
  double displacement_mm;
  std::string file;
};
std::string pvd_text(const std::vector<VtuStep>& steps);

}  // namespace coilpull
