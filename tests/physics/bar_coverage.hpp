// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/device/device.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// How the error bars of some tables did against the truth.
struct Coverage {
  std::vector<double> bar_over_error;  ///< every usable row
  int rows = 0, covered = 0, devices_below_nine_tenths = 0;
  double worst_miss = 0;  ///< |error| / bar
  int histogram[7] = {};  ///< |error| / bar below 1/32, 1/16, 1/8, 1/4, 1/2, 1, above

  void add(const std::vector<double>& bars, const std::vector<double>& errors);  ///< rows of one device
  double median_bar_over_error() const;
};

/// The table alone: what is judged here needs no second opinion.
ForceTable without_audit(const Device& device);

/// Force of every row of a table from another with bars a tenth as wide as the first one's, be they as narrow
/// as asked or narrower, and so on finer meshes; where these do not get below a third, the finest once more
/// one order higher. That the bars came below a third is checked.
std::vector<double> far_finer_forces(Device device, const ForceTable& table);

/// The table's bars against far_finer_forces; every row must be usable.
void cover(const Device& device, const ForceTable& table, Coverage& coverage);

/// Prints the histogram and checks: at least 97 % of all rows inside, 90 % of each device's, no miss beyond 3
/// bars, median of bar over error at most as stated.
void judge(const Coverage& coverage, double median_at_most = 5);

}  // namespace coilpull
