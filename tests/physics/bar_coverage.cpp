// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/physics/bar_coverage.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "solver/sweep/displacement_rows.hpp"
#include "solver/sweep/sweep.hpp"
#include "solver/sweep/table_bars.hpp"

namespace coilpull {
namespace {

/// The table's rows again on its meshes, one polynomial order higher.
ForceTable one_order_up(const Device& device, const ForceTable& table) {
  ForceTable higher = table;
  higher.rows.clear();
  Mesher mesher;
  std::vector<DisplacementRows> solved;
  for (std::size_t i = 0; i < device.displacements.size(); ++i) {
    RowsPlan plan;
    plan.order = table.order;  // published is one more
    plan.origin = table.meshes[i];
    plan.anchors = AskAnchors::yes;
    solved.push_back(solve_displacement(device, device.displacements[i], mesher, plan));
    higher.rows.insert(higher.rows.end(), solved.back().rows.begin(), solved.back().rows.end());
  }
  add_bars(solved, higher);
  return higher;
}

}  // namespace

void Coverage::add(const std::vector<double>& bars, const std::vector<double>& errors) {
  int inside = 0;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    const double error = std::abs(errors[i]), miss = error / bars[i];
    bar_over_error.push_back(bars[i] / std::max(error, 1e-300));
    worst_miss = std::max(worst_miss, miss);
    inside += miss <= 1;
    int slot = 0;
    for (double edge = 1.0 / 32; slot < 6 && miss > edge; edge *= 2) ++slot;
    ++histogram[slot];
  }
  rows += static_cast<int>(bars.size());
  covered += inside;
  devices_below_nine_tenths += inside < 0.9 * static_cast<double>(bars.size());
}

double Coverage::median_bar_over_error() const {
  std::vector<double> sorted = bar_over_error;
  std::sort(sorted.begin(), sorted.end());
  return sorted[sorted.size() / 2];
}

ForceTable without_audit(const Device& device) {
  SweepOptions options;
  options.audit = false;
  return sweep(device, options);
}

std::vector<double> far_finer_forces(Device device, const ForceTable& table) {
  device.tolerance = std::min(device.tolerance, table.tolerance_reached) / 10;
  ForceTable finer = without_audit(device);
  // What judges a bar must be surer than it: a third, where ten times finer is out of reach (hair gaps).
  const double sure_enough = std::max(2 * device.tolerance, table.tolerance_reached / 3);
  if (finer.tolerance_reached > sure_enough) finer = one_order_up(device, finer);
  CHECK(finer.tolerance_reached <= sure_enough);
  std::vector<double> forces;
  for (const Measurement& row : finer.rows) {
    REQUIRE(std::isfinite(row.force_N.value));
    forces.push_back(row.force_N.value);
  }
  return forces;
}

void cover(const Device& device, const ForceTable& table, Coverage& coverage) {
  const std::vector<double> truth = far_finer_forces(device, table);
  std::vector<double> bars, errors;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    INFO("row " << i << ": " << table.rows[i].why);
    REQUIRE(std::isfinite(table.rows[i].force_N.value));
    bars.push_back(std::max(table.rows[i].force_N.error, 1e-15));  // a force that is exactly 0 has a bar of 0
    errors.push_back(table.rows[i].force_N.value - truth[i]);
  }
  coverage.add(bars, errors);
}

void judge(const Coverage& coverage, double median_at_most) {
  std::ostringstream text;
  text << "|error| / bar below 1/32, 1/16, 1/8, 1/4, 1/2, 1, above:";
  for (const int count : coverage.histogram) text << ' ' << count;
  MESSAGE(text.str());
  const double median = coverage.median_bar_over_error();
  MESSAGE(coverage.covered << " of " << coverage.rows << " rows inside their bar, worst "
                           << coverage.worst_miss << " bars, median bar / |error| " << median);
  CHECK(coverage.covered >= 0.97 * coverage.rows);
  CHECK(coverage.devices_below_nine_tenths == 0);
  CHECK(coverage.worst_miss <= 3);
  CHECK(median <= median_at_most);
}

}  // namespace coilpull
