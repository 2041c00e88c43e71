// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/point_text.hpp"

#include <cmath>

#include "apps/output/csvw_metadata.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"

namespace coilpull {
namespace {

constexpr std::size_t label_width = 30;

std::string line(std::string label, const std::string& text) {
  label.resize(std::max(label.size() + 1, label_width), ' ');
  return label + text + "\n";
}

std::string direction(double force_N) {
  if (!(std::abs(force_N) > 0)) return "";
  return force_N > 0 ? "  (towards +z)" : "  (towards -z)";
}

std::string slopes_text(const ForceTable& table, const Slopes& slopes) {
  std::string text = line("slope of the force",
                          rounded(1e-3 * slopes.force_per_displacement, 5) + " N/mm along the displacement");
  for (std::size_t k = 0; k < table.circuits.size(); ++k) {
    text +=
        line("force per ampere of " + table.circuits[k], rounded(slopes.force_per_current[k], 5) + " N/A");
    text += line("incremental inductance " + table.circuits[k],
                 rounded(1e3 * slopes.inductance[k][k], 5) + " mH");
  }
  return text;
}

}  // namespace

std::string point_text(const ForceTable& table) {
  if (table.rows.empty()) return "no point\n";
  const Measurement& row = table.rows.front();
  std::string text = line("displacement", shortest(in_mm(row.displacement)) + " mm");
  if (std::isfinite(row.clearance)) text += line("clearance", rounded(in_mm(row.clearance), 4) + " mm");
  if (!table.circuits.empty()) text += line("current", currents_text(table.circuits, row.currents_A));
  text += line("force", with_bar(row.force_N) + " N" + direction(row.force_N.value));
  for (std::size_t i = 0; i < row.linkage_Wb.size(); ++i)
    text += line("flux linkage " + table.circuits[i], with_bar(row.linkage_Wb[i]) + " Wb");
  text += line("coenergy", rounded(row.coenergy_J, 6) + " J");
  for (std::size_t i = 0; i < row.b_p99_T.size(); ++i)
    text += line("B in " + table.cores[i], rounded(row.b_p99_T[i], 4) + " T (99 % of its volume is below)");
  for (std::size_t i = 0; i < row.magnets.size(); ++i) {
    const MagnetState& state = row.magnets[i];
    text +=
        line("B along " + table.magnets[i], rounded(state.b_mean_T, 4) + " T in the mean, 1 % of it below " +
                                                rounded(state.b_p01_T, 4) + " T");
    text +=
        line("", std::isnan(state.past_knee) ? "its knee is not known"
                                             : rounded(100 * state.past_knee, 3) + " % of it past its knee");
  }
  for (std::size_t i = 0; i < row.sensors.size(); ++i)
    text += line("B at " + table.sensors[i], "r " + rounded(row.sensors[i].br_T, 5) + " T, z " +
                                                 rounded(row.sensors[i].bz_T, 5) + " T; no bar");
  for (std::size_t k = 0; k < row.body_force_N.size(); ++k)
    text += line("force on " + table.bodies[k], rounded(row.body_force_N[k], 6) + " N");
  if (row.slopes) text += slopes_text(table, *row.slopes);
  text += line("mesh", std::to_string(table.triangles_most) + " triangles of order " +
                           std::to_string(table.order) + ", " + std::to_string(table.unknowns_most) +
                           " unknowns");
  text += line("status", word_for(row.status) + (row.why.empty() ? "" : ": " + row.why));
  return text + "\n" + limits_of_the_table + "\n";
}

}  // namespace coilpull
