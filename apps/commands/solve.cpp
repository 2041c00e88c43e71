// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/solve.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>

#include "apps/commands/stop_signal.hpp"
#include "apps/input/bad_csv.hpp"
#include "apps/output/number_text.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/refine/resolution_for.hpp"
#include "solver/sweep/sweep.hpp"

namespace coilpull {

ForceTable solve(const DeviceFile& file, const SolveChoice& choice, ProgressStyle style) {
  return solve(file.device, file, choice, style);
}

ForceTable solve(const Device& device, const DeviceFile& file, const SolveChoice& choice,
                 ProgressStyle style) {
  Progress progress(std::cerr, style);
  SweepOptions options;
  options.threads = choice.threads;
  options.row_limit_s = choice.row_limit_s;
  options.slopes = choice.slopes;
  options.bodies = choice.bodies;
  options.audit = choice.audit;
  options.meshes = choice.meshes;
  options.on_progress = [&](std::size_t rows_done, std::size_t rows) { progress.show(rows_done, rows); };
  options.stop_requested = stop_was_asked;
  watch_for_stop();
  try {
    ForceTable table = sweep(device, options);
    progress.end();
    return table;
  } catch (const BadSection& trouble) {
    progress.end();
    throw BadDevice(explain(trouble, file));
  }
}

std::optional<SolvedPoint> solve_point(const Device& device, double displacement,
                                       const std::vector<double>& currents_A, int order, Mesher& mesher) {
  try {
    const Resolution resolution = resolution_for(device.tolerance);
    const auto mesh = std::make_shared<Mesh>(mesher.mesh(section_at(device, displacement, resolution)));
    const Problem problem = make_problem(device, mesh->region_names);
    FieldOptions options;
    options.order = order;
    options.outer_ratio = resolution.outer_ratio;
    const Eigen::Map<const Eigen::VectorXd> currents(currents_A.data(),
                                                     static_cast<Eigen::Index>(currents_A.size()));
    Field field = solve_field(mesh, problem, currents, options);
    if (!field.report.usable()) return std::nullopt;
    return SolvedPoint{std::move(field), problem, mesh->region_names, order};
  } catch (const BadSection&) {
  } catch (const MeshingFailed&) {
  } catch (const std::runtime_error&) {  // a broken matrix
  }
  return std::nullopt;
}

std::optional<SensitivityList> solve_sensitivities(const Device& device, double displacement,
                                                   const std::vector<double>& currents_A, int order,
                                                   Mesher& mesher) {
  try {
    const Resolution resolution = resolution_for(device.tolerance);
    const auto mesh = std::make_shared<Mesh>(mesher.mesh(section_at(device, displacement, resolution)));
    const Eigen::Map<const Eigen::VectorXd> currents(currents_A.data(),
                                                     static_cast<Eigen::Index>(currents_A.size()));
    SensitivityList list =
        sensitivities(mesh, device, displacement, currents, order - 1, resolution.outer_ratio);
    if (list.report.usable()) return list;
  } catch (const BadSection&) {
  } catch (const MeshingFailed&) {
  } catch (const std::runtime_error&) {  // a broken matrix
  }
  return std::nullopt;
}

ExitCode exit_code_for(const ForceTable& table) {
  const auto some_row = [&](auto is) { return std::any_of(table.rows.begin(), table.rows.end(), is); };
  if (some_row([](const Measurement& row) { return row.status == RowStatus::stopped; })) return exit_stopped;
  if (some_row([](const Measurement& row) { return row.status != RowStatus::ok; })) return exit_row_not_ok;
  return exit_good;
}

ExitCode with_usable_rows(const ForceTable& table, const std::function<ExitCode()>& work) {
  try {
    return work();
  } catch (const BadCsv& lacking) {
    const auto is_lost = [](const Measurement& row) { return std::isnan(row.force_N.value); };
    const auto lost = std::find_if(table.rows.begin(), table.rows.end(), is_lost);
    if (lost == table.rows.end()) throw;
    std::cerr << "coilpull: " << std::count_if(table.rows.begin(), table.rows.end(), is_lost) << " of "
              << table.rows.size() << " rows have no force, too many to go on; the first, at "
              << rounded(in_mm(lost->displacement), 6) << " mm: " << lost->why << "\n  "
              << "coilpull table tells of each.\n";
    return exit_row_not_ok;
  }
}

}  // namespace coilpull
