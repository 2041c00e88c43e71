// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sign_changes.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace coilpull {
namespace {

struct ForceAt {
  double x;        ///< displacement [m]
  Measured force;  ///< [N]
};

/// The rows of one set of currents whose force is a number, by rising displacement.
std::vector<ForceAt> along_stroke(const ForceTable& table, std::size_t current) {
  std::vector<ForceAt> points;
  for (std::size_t i = current; i < table.rows.size(); i += table.currents_per_displacement)
    if (const Measurement& row = table.rows[i]; std::isfinite(row.force_N.value))
      points.push_back({row.displacement, row.force_N});
  std::stable_sort(points.begin(), points.end(),
                   [](const ForceAt& a, const ForceAt& b) { return a.x < b.x; });
  return points;
}

/// Rows first to last of the stroke.
struct Stretch {
  std::size_t first, last;
};

/// The polynomial through the rows of a stretch, by the scheme of Neville. [N]
double force_at(const std::vector<ForceAt>& points, Stretch rows, double x) {
  std::vector<double> value;
  for (std::size_t i = rows.first; i <= rows.last; ++i) value.push_back(points[i].force.value);
  for (std::size_t span = 1; span < value.size(); ++span)
    for (std::size_t i = 0; i + span < value.size(); ++i) {
      const double low = points[rows.first + i].x, high = points[rows.first + i + span].x;
      value[i] = ((x - low) * value[i + 1] + (high - x) * value[i]) / (high - low);
    }
  return value.front();
}

/// Its zero between rows i - 1 and i, where its signs differ. [m]
double zero_of(const std::vector<ForceAt>& points, Stretch rows, std::size_t i) {
  double low = points[i - 1].x, high = points[i].x;
  const double at_low = points[i - 1].force.value;
  while (true) {
    const double middle = 0.5 * (low + high);
    if (!(low < middle && middle < high)) return middle;
    (force_at(points, rows, middle) * at_low > 0 ? low : high) = middle;
  }
}

/// The zero between rows first and last, whose forces have opposite signs beyond their bars; rows between
/// them do not know their signs.
Measured zero_between(const std::vector<ForceAt>& points, std::size_t first, std::size_t last) {
  const auto force = [&](std::size_t at) { return points[at].force; };
  std::size_t i = first + 1;
  while (i < last && force(first).value * force(i).value > 0) ++i;
  const Stretch all{i >= 2 ? i - 2 : i - 1, std::min(i + 1, points.size() - 1)}, line{i - 1, i};
  const double zero = zero_of(points, all, i), step = points[i].x - points[i - 1].x;
  const std::size_t rows = all.last - all.first + 1;
  double open = std::max(zero - points[i - 1].x, points[i].x - zero);
  if (rows == 3) open = std::abs(zero - zero_of(points, line, i));
  if (rows == 4) open = std::abs(zero_of(points, {all.first, i}, i) - zero_of(points, {i - 1, all.last}, i));
  const double across = std::abs(force(last).value - force(first).value) / (points[last].x - points[first].x);
  const double local =
      std::abs(force_at(points, all, zero + step / 100) - force_at(points, all, zero - step / 100)) /
      (step / 50);
  const double bar = std::max(force(i - 1).error, force(i).error);
  return {zero, bar / (last == first + 1 ? std::min(across, local) : across) + open};
}

bool sign_is_sure(const ForceAt& point) { return std::abs(point.force.value) > point.force.error; }

}  // namespace

std::vector<SignChange> sign_changes(const ForceTable& table, std::size_t current) {
  std::vector<SignChange> changes;
  if (table.currents_per_displacement == 0) return changes;
  const std::vector<ForceAt> points = along_stroke(table, current);
  std::optional<std::size_t> last_sure;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!sign_is_sure(points[i])) continue;
    if (last_sure && points[*last_sure].force.value * points[i].force.value < 0)
      changes.push_back({zero_between(points, *last_sure, i), points[i].force.value < 0});
    last_sure = i;
  }
  return changes;
}

}  // namespace coilpull
