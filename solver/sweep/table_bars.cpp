// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/table_bars.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

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

using Line = std::vector<std::pair<double, double>>;  // points with rising first

/// On straight pieces through the points, level beyond the first and last.
double on_line(const Line& points, double at) {
  const auto next = std::find_if(points.begin(), points.end(), [&](const auto& p) { return p.first >= at; });
  if (next == points.begin()) return next->second;
  if (next == points.end()) return points.back().second;
  const auto [x0, y0] = *(next - 1);
  return y0 + (next->second - y0) * (at - x0) / (next->first - x0);
}

/// What the features of the drawing change, for every row from the anchors around it, but at least half of
/// the anchors' root mean square. Empty without anchors.
std::vector<double> by_feature(const std::vector<DisplacementRows>& solved, std::size_t sets) {
  const double least = 0.5 * rms_over_anchors(solved, [](const Anchor& a) { return a.by_feature_N; });
  std::vector<std::pair<double, Line>> along_currents;  // where there are anchors
  for (std::size_t i = 0; i < solved.size(); ++i) {
    Line line;
    for (const Anchor& anchor : solved[i].anchors)
      line.push_back({static_cast<double>(anchor.set), anchor.by_feature_N});
    if (!line.empty()) along_currents.push_back({static_cast<double>(i), line});
  }
  std::vector<double> all;
  if (along_currents.empty()) return all;
  for (std::size_t i = 0; i < solved.size(); ++i)
    for (std::size_t set = 0; set < sets; ++set) {
      Line along_stroke;
      for (const auto& [place, line] : along_currents)
        along_stroke.push_back({place, on_line(line, static_cast<double>(set))});
      all.push_back(std::max(least, on_line(along_stroke, static_cast<double>(i))));
    }
  return all;
}

void widen(std::vector<double>& bars, double scatter) {
  for (double& bar : bars) bar = std::hypot(bar, scatter);
}

void add_linkage_bars(const std::vector<DisplacementRows>& solved, std::size_t circuit, const BarRule& rule,
                      ForceTable& table) {
  OrderDifferences linkage{table.currents_per_displacement, {}, {}, 0};
  for (const DisplacementRows& at : solved)
    linkage.difference.insert(linkage.difference.end(), at.linkage_difference_Wb[circuit].begin(),
                              at.linkage_difference_Wb[circuit].end());
  for (const Measurement& row : table.rows)
    if (!std::isnan(row.linkage_Wb[circuit].value))
      linkage.floor = std::max(linkage.floor, rounding * std::abs(row.linkage_Wb[circuit].value));
  std::vector<double> bars = error_bars(linkage, rule);
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
  const BarRule rule = rule_for(table.order_ratio, steel);
  table.safety = rule.safety;
  table.mesh_scatter_N = scatter_weight_with_features *
                         rms_over_anchors(solved, [](const Anchor& a) { return a.high_N - a.elsewhere_N; });
  OrderDifferences force{table.currents_per_displacement,
                         {},
                         by_feature(solved, table.currents_per_displacement),
                         rounding * table.peak_force_N};
  for (const DisplacementRows& at : solved) {
    force.difference.insert(force.difference.end(), at.force_difference_N.begin(),
                            at.force_difference_N.end());
  }
  std::vector<double> bars = error_bars(force, rule);
  widen(bars, table.mesh_scatter_N);
  double widest = 0;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    table.rows[i].force_N.error = bars[i];
    if (!std::isnan(bars[i])) widest = std::max(widest, bars[i]);
  }
  table.tolerance_reached = widest / std::max(table.peak_force_N, least_force_N);
  for (std::size_t k = 0; k < table.circuits.size(); ++k) add_linkage_bars(solved, k, rule, table);
}

}  // namespace coilpull
