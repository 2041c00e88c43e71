// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"
#include "apps/commands/progress.hpp"
#include "apps/device_file/read_device_file.hpp"
#include "meshing/mesh_section.hpp"
#include "solver/fem/problem.hpp"
#include "solver/field/field.hpp"
#include "solver/refine/sensitivity.hpp"
#include "solver/sweep/force_table.hpp"
#include "solver/sweep/row_limit.hpp"

namespace coilpull {

struct SolveChoice {
  int threads = 0;                         ///< 0: as many as the machine has cores
  bool slopes = false;                     ///< also Measurement::slopes
  bool bodies = false;                     ///< also Measurement::body_force_N
  bool audit = false;                      ///< hold five rows against the energy of independent meshes
  double row_limit_s = usual_row_limit_s;  ///< of processor time for a row
  std::vector<MeshOrigin> meshes = {};     ///< of a device of the same shape, for the same meshes
};

/// The sweep as the program runs it: progress on standard error, Ctrl-C and SIGTERM stop it between points.
/// @throws BadDevice  when parts overlap or come too close, in the words of the device file
ForceTable solve(const DeviceFile& file, const SolveChoice& choice, ProgressStyle style);

/// The same for a device without a file of its own: a change of the one that file describes.
ForceTable solve(const Device& device, const DeviceFile& file, const SolveChoice& choice,
                 ProgressStyle style);

/// The field of one point, for pictures and files.
struct SolvedPoint {
  Field field;
  Problem problem;                   ///< by region of the field's mesh
  std::vector<std::string> regions;  ///< their names
  int order;                         ///< polynomial order of the solution
};

/// Meshes and solves one point again. Nothing when it cannot be meshed or does not converge: the table has
/// told.
std::optional<SolvedPoint> solve_point(const Device& device, double displacement,
                                       const std::vector<double>& currents_A, int order, Mesher& mesher);

/// Sensitivities of the force at one point, on a mesh of its own. Nothing as above.
/// @param order  of the published values: p + 1 of the list
std::optional<SensitivityList> solve_sensitivities(const Device& device, double displacement,
                                                   const std::vector<double>& currents_A, int order,
                                                   Mesher& mesher);

/// 130 when the run was stopped, else 3 when some row is not `ok`, else 0.
ExitCode exit_code_for(const ForceTable& table);

/// work(), which needs usable rows of the table. When it finds too few (BadCsv) and rows had failed, these
/// are the reason, and no mistake of the person's: told on standard error, 3.
ExitCode with_usable_rows(const ForceTable& table, const std::function<ExitCode()>& work);

}  // namespace coilpull
