// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>

#include "meshing/mesh_section.hpp"
#include "solver/device/device.hpp"
#include "solver/sweep/force_table.hpp"
#include "solver/sweep/row_limit.hpp"

namespace coilpull {

class Crew;

/// How a table is solved.
struct SweepOptions {
  int threads = 0;  ///< 0: as many as the machine has cores
  MesherOptions mesher = {};
  /// Threads and meshers to be used instead of new ones, by one sweep at a time; they outlive it. For many
  /// sweeps in a row: a mesher starts only once. `threads` and `mesher` are then those of the crew.
  Crew* crew = nullptr;
  bool slopes = false;  ///< also Measurement::slopes
  bool bodies = false;  ///< also Measurement::body_force_N
  bool audit = true;    ///< hold five rows against the energy of independent meshes, see energy_audit.hpp
  /// One per displacement, from the ForceTable of a device of the same shape: taken as they are, so that both
  /// are solved on the same meshes, and none is made finer for the tolerance's sake. Empty: found for this
  /// device.
  std::vector<MeshOrigin> meshes = {};
  std::function<void(std::size_t rows_done, std::size_t rows)> on_progress =
      {};                                  ///< called from worker threads, one at a time
  double row_limit_s = usual_row_limit_s;  ///< of processor time: a row that takes longer is `not_converged`
  std::function<bool()> stop_requested =
      {};  ///< asked between points; true: the remaining rows are marked `stopped`
};

/// Every row of the table. Trouble with one row is marked in that row and does not stop the others.
/// The numbers do not depend on the number of threads.
/// @throws BadSection  parts overlap, touch across moving and fixed, or come closer than 1e-5 of the device
///                     at some displacement; thrown before anything is solved
/// @throws std::invalid_argument  meshes are given, but not one per displacement
ForceTable sweep(const Device& device, const SweepOptions& options = {});

}  // namespace coilpull
