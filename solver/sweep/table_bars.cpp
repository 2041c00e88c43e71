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

/// What an independent mesh changes of the force, for every row from the anchors around it, but at least half
/// of the root mean square over the anchors; 0 without any.
std::vector<double> scatter_along(const std::vector<DisplacementRows>& solved, const ForceTable& table) {
  std::vector<std::pair<double, Line>> along_currents;  // where there are anchors
  for (std::size_t i = 0; i < solved.size(); ++i) {
    Line line;
    for (const Anchor& anchor : solved[i].anchors)
      if (!std::isnan(anchor.elsewhere_N))
        line.push_back({static_cast<double>(anchor.set), std::abs(anchor.high_N - anchor.elsewhere_N)});
    if (!line.empty()) along_currents.push_back({static_cast<double>(i), line});
  }
  std::vector<double> all(table.rows.size(), 0.0);
  if (along_currents.empty()) return all;
  for (std::size_t row = 0; row < all.size(); ++row) {
    Line along_stroke;
    for (const auto& [place, line] : along_currents)
      along_stroke.push_back(
          {place, on_line(line, static_cast<double>(row % table.currents_per_displacement))});
    all[row] = std::max(0.5 * table.mesh_scatter_N,
                        on_line(along_stroke, static_cast<double>(row / table.currents_per_displacement)));
  }
  return all;
}

void add_linkage_bars(const std::vector<DisplacementRows>& solved, std::size_t circuit, const BarRule& rule,
                      ForceTable& table) {
  OrderDifferences linkage{table.currents_per_displacement, {}, {}};
  double floor = 0;
  for (const DisplacementRows& at : solved)
    linkage.difference.insert(linkage.difference.end(), at.linkage_difference_Wb[circuit].begin(),
                              at.linkage_difference_Wb[circuit].end());
  for (const Measurement& row : table.rows)
    if (!std::isnan(row.linkage_Wb[circuit].value))
      floor = std::max(floor, rounding * std::abs(row.linkage_Wb[circuit].value));
  const std::vector<double> bars = error_bars(linkage, rule);
  const double scatter = linkage_scatter_weight * rms_over_anchors(solved, [&](const Anchor& a) {
                           return a.linkage_elsewhere_Wb.empty()
                                      ? std::nan("")
                                      : a.linkage_Wb[circuit] - a.linkage_elsewhere_Wb[circuit];
                         });
  for (std::size_t i = 0; i < bars.size(); ++i)
    table.rows[i].linkage_Wb[circuit].error =
        std::isnan(bars[i]) ? bars[i] : std::max(std::hypot(bars[i], scatter), floor);
}

}  // namespace

void add_bars(const std::vector<DisplacementRows>& solved, ForceTable& table) {
  const Steel steel = table.cores.empty() ? Steel::no : Steel::yes;
  const std::size_t sets = table.currents_per_displacement;
  table.order_ratio = order_ratio(solved);
  const ForceBarRule rule = force_bar_rule(table.order_ratio, steel);
  table.safety_where_rough = rule.rough.safety;
  table.safety_where_smooth = rule.smooth.safety;
  table.mesh_scatter_N = rms_over_anchors(solved, [](const Anchor& a) { return a.high_N - a.elsewhere_N; });
  OrderDifferences rough{sets, {}, {}}, smooth{sets, {}, {}};
  for (const DisplacementRows& at : solved)
    for (const ForceChange& change : at.force_change) {
      rough.difference.push_back(change.rough_N);
      rough.apart.push_back(change.rough_apart_N);
      smooth.difference.push_back(change.smooth_N);
      smooth.apart.push_back(change.smooth_apart_N);
    }
  const std::vector<double> where_rough = error_bars(rough, rule.rough),
                            where_smooth = error_bars(smooth, rule.smooth),
                            elsewhere = scatter_along(solved, table);
  double widest = 0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const double scatter = std::hypot(rule.scatter * elsewhere[i], rule.scatter_rms * table.mesh_scatter_N);
    double& bar = table.rows[i].force_N.error;
    bar = std::hypot(where_rough[i], where_smooth[i], scatter);
    if (std::isnan(bar)) continue;
    bar = std::max(bar, rounding * table.peak_force_N);
    widest = std::max(widest, bar);
  }
  table.tolerance_reached = widest / std::max(table.peak_force_N, least_force_N);
  const BarRule linkage_rule = linkage_bar_rule(table.order_ratio, steel);
  for (std::size_t k = 0; k < table.circuits.size(); ++k) add_linkage_bars(solved, k, linkage_rule, table);
}

}  // namespace coilpull
