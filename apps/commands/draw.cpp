// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/draw.hpp"

#include <algorithm>
#include <cmath>

#include "apps/commands/solve.hpp"
#include "apps/output/bh_picture.hpp"
#include "apps/output/device_picture.hpp"
#include "apps/output/field_picture.hpp"
#include "apps/output/findings.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/summary.hpp"
#include "apps/output/table_pictures.hpp"
#include "solver/field/sample.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

void append(Paths& all, Paths more) { all.insert(all.end(), more.begin(), more.end()); }

/// A point of the table whose field is drawn.
struct Telling {
  std::string stem;
  const Measurement* row;
};

std::vector<Telling> telling_points(const ForceTable& table) {
  std::vector<Telling> points;
  const Measurement* push = strongest_push(table);
  const Measurement* pull = strongest_pull(table);
  if (push) points.push_back({"field_strongest_push", push});
  if (pull) points.push_back({"field_strongest_pull", pull});
  if (points.empty()) return points;
  for (const Measurement& row : table.rows)
    if (row.displacement == points.front().row->displacement && &row != push && &row != pull &&
        std::all_of(row.currents_A.begin(), row.currents_A.end(), [](double a) { return a == 0; })) {
      points.push_back({"field_current_off", &row});
      break;
    }
  return points;
}

/// Divisions of every triangle's edges, so that flux lines bend smoothly: fewer for a fine mesh.
int divisions_for(const Field& field) {
  constexpr double small_triangles = 180000;
  const double triangles = static_cast<double>(sample(field, 1).triangles());
  return std::clamp(static_cast<int>(std::sqrt(small_triangles / triangles)), 4, 12);
}

Paths draw_curves(const fs::path& folder, const Device& device, const ForceTable& table) {
  Paths all;
  if (displacement_count(table) < 2) return all;
  append(all, write_picture(draw(force_picture(table, device)), folder, "force", device.title));
  for (std::size_t k = 0; k < device.circuits.size(); ++k)
    append(all, write_picture(draw(linkage_picture(table, device, k)), folder,
                              "flux_linkage_" + device.circuits[k], device.title));
  if (std::any_of(table.rows.begin(), table.rows.end(), [](const Measurement& row) { return row.spread; }))
    append(all, write_picture(draw(spread_picture(table, device)), folder, "force_spread", device.title));
  for (std::size_t k = 0; k < table.approximations.size(); ++k) {
    const std::string stem = "force_" + table.approximations[k];
    append(all, write_picture(draw(approximation_picture(table, device, k)), folder, stem, device.title));
    append(all, write_picture(draw(approximation_ratio_picture(table, device, k)), folder, stem + "_ratio",
                              device.title));
  }
  return all;
}

}  // namespace

Paths draw_device_into(const fs::path& folder, const Device& device, Halves halves) {
  return write_picture(draw_device(device, halves), folder, "device", device.title);
}

Paths draw_table_into(const fs::path& folder, const Device& device, const ForceTable& table, Halves halves) {
  Paths all = draw_device_into(folder, device, halves);
  append(all, draw_curves(folder, device, table));
  if (const auto curves = bh_picture(device))
    append(all, write_picture(draw(*curves), folder, "bh_curves", device.title));
  Mesher mesher;
  for (const Telling& point : telling_points(table))
    if (const auto solved =
            solve_point(device, point.row->displacement, point.row->currents_A, table.order, mesher))
      append(all, draw_field_into(folder, point.stem, device, table, *point.row, solved->field, halves));
  return all;
}

Paths draw_field_into(const fs::path& folder, const std::string& stem, const Device& device,
                      const ForceTable& table, const Measurement& row, const Field& field, Halves halves) {
  const std::string currents = currents_text(table.circuits, row.currents_A);
  const std::string below = "flux density and flux lines at " + shortest(in_mm(row.displacement)) + " mm" +
                            (currents.empty() ? "" : ", " + currents) + "; force " + with_bar(row.force_N) +
                            " N";
  return write_picture(
      draw_field(sample(field, divisions_for(field)), device, row.displacement, below, halves), folder, stem,
      device.title);
}

}  // namespace coilpull
