// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/table_bars.hpp"

#include <algorithm>
#include <cmath>

#include "solver/refine/error_bar.hpp"

namespace coilpull {
namespace {

constexpr double rounding = 1e-9;  // of the table's largest value: what Newton's method and rounding leave

/// Root of the mean square of what each anchor gives; anchors that give no number do not count. 0 without
/// any.
template <class Difference>
double rms_over_anchors(const std::vector<DisplacementRows>& solved, const Difference& difference) {
  double squares = 0;
  int count = 0;
  for (const DisplacementRows& at : solved)
    for (const Anchor& anchor : at.anchors) {
      const double d = difference(anchor);
      if (!std::isnan(d)) squares += d * d, ++count;
    }
  return count > 0 ? std::sqrt(squares / count) : 0;
}

double order_ratio(const std::vector<DisplacementRows>& solved) {
  const double now =
      rms_over_anchors(solved, [](const Anchor& a) { return a.high_N - a.low_N + 0 * a.below_N; });
  const double before = rms_over_anchors(solved, [](const Anchor& a) { return a.low_N - a.below_N; });
  return before > 0 ? now / before : 0;
}

void widen(std::vector<double>& bars, double scatter) {
  for (double& bar : bars) bar = std::hypot(bar, scatter);
}

void add_linkage_bars(const std::vector<DisplacementRows>& solved, std::size_t circuit, ForceTable& table) {
  OrderDifferences linkage{table.currents_per_displacement, {}, 0, 0};
  for (const DisplacementRows& at : solved)
    linkage.difference.insert(linkage.difference.end(), at.linkage_difference_Wb[circuit].begin(),
                              at.linkage_difference_Wb[circuit].end());
  for (const Measurement& row : table.rows)
    if (!std::isnan(row.linkage_Wb[circuit].value))
      linkage.floor = std::max(linkage.floor, rounding * std::abs(row.linkage_Wb[circuit].value));
  std::vector<double> bars = error_bars(linkage, table.safety);
  widen(bars, scatter_weight * rms_over_anchors(solved, [&](const Anchor& a) {
                return a.linkage_elsewhere_Wb.empty()
                           ? std::nan("")
                           : a.linkage_Wb[circuit] - a.linkage_elsewhere_Wb[circuit];
              }));
  for (std::size_t i = 0; i < bars.size(); ++i) table.rows[i].linkage_Wb[circuit].error = bars[i];
}

}  // namespace

void add_bars(const std::vector<DisplacementRows>& solved, ForceTable& table) {
  const Steel steel = table.cores.empty() ? Steel::no : Steel::yes;
  table.order_ratio = order_ratio(solved);
  table.safety = safety_for(table.order_ratio, steel);
  table.mesh_scatter_N =
      scatter_weight * rms_over_anchors(solved, [](const Anchor& a) { return a.high_N - a.elsewhere_N; });
  OrderDifferences force{table.currents_per_displacement,
                         {},
                         rms_over_anchors(solved, [](const Anchor& a) { return a.by_feature_N; }),
                         rounding * table.peak_force_N};
  for (const DisplacementRows& at : solved) {
    force.difference.insert(force.difference.end(), at.force_difference_N.begin(),
                            at.force_difference_N.end());
  }
  std::vector<double> bars = error_bars(force, table.safety);
  widen(bars, table.mesh_scatter_N);
  double widest = 0;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    table.rows[i].force_N.error = bars[i];
    if (!std::isnan(bars[i])) widest = std::max(widest, bars[i]);
  }
  table.tolerance_reached = widest / std::max(table.peak_force_N, least_force_N);
  for (std::size_t k = 0; k < table.circuits.size(); ++k) add_linkage_bars(solved, k, table);
}

}  // namespace coilpull
