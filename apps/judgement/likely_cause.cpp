// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/judgement/likely_cause.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace coilpull {
namespace {

using Points = std::vector<const JudgedPoint*>;
constexpr std::size_t fewest_points = 4;
constexpr double explained = 0.5;        // rms left, of the rms before
constexpr double furthest_shift = 0.05;  // of the table's stroke
constexpr int shifts_each_way = 50;

double square(double x) { return x * x; }

double rms(double sum_of_squares, const Points& points) {
  return std::sqrt(sum_of_squares / static_cast<double>(points.size()));
}

LikelyCause factor(const Points& points) {
  double both = 0, own = 0, left = 0;
  for (const JudgedPoint* p : points) both += p->mine_N * p->table->force_N, own += square(p->table->force_N);
  const double amount = own > 0 ? both / own : 1;
  for (const JudgedPoint* p : points) left += square(p->mine_N - amount * p->table->force_N);
  return {LikelyCause::Kind::factor, amount, rms_difference_N(points), rms(left, points)};
}

LikelyCause constant(const Points& points) {
  double sum = 0, left = 0;
  for (const JudgedPoint* p : points) sum += p->difference_N();
  const double amount = sum / static_cast<double>(points.size());
  for (const JudgedPoint* p : points) left += square(p->difference_N() - amount);
  return {LikelyCause::Kind::constant, amount, rms_difference_N(points), rms(left, points)};
}

/// Infinite when a point leaves the table.
double rms_when_shifted(const Points& points, const ForceGrid& grid, double shift) {
  double left = 0;
  for (const JudgedPoint* p : points) {
    const GridAnswer there = grid.at(p->displacement + shift, p->currents_A);
    if (!there.force) return std::numeric_limits<double>::infinity();
    left += square(p->mine_N - there.force->force_N);
  }
  return rms(left, points);
}

/// Points far enough from the table's ends to be shifted.
LikelyCause displacement(const Points& points, const ForceGrid& grid) {
  const auto& all = grid.table().displacements;
  const double furthest = furthest_shift * (all.back() - all.front());
  Points inner;
  for (const JudgedPoint* p : points)
    if (p->displacement - furthest >= all.front() && p->displacement + furthest <= all.back())
      inner.push_back(p);
  LikelyCause best{LikelyCause::Kind::displacement, 0, rms_difference_N(inner), rms_difference_N(inner)};
  if (inner.size() < std::max(fewest_points, points.size() / 2)) return best;
  for (int i = -shifts_each_way; i <= shifts_each_way; ++i) {
    const double shift = furthest * i / shifts_each_way;
    const double left = rms_when_shifted(inner, grid, shift);
    if (left < best.rms_after_N) best.amount = shift, best.rms_after_N = left;
  }
  return best;
}

}  // namespace

std::optional<LikelyCause> likely_cause(const Judgement& judgement, const ForceGrid& grid) {
  const Points points = judgement.judged();
  const auto outside = std::count_if(points.begin(), points.end(),
                                     [](const JudgedPoint* p) { return p->verdict == AgainstBar::outside; });
  if (points.size() < fewest_points || 2 * outside <= static_cast<std::ptrdiff_t>(points.size()))
    return std::nullopt;
  std::vector<LikelyCause> causes = {factor(points), constant(points), displacement(points, grid)};
  const auto share = [](const LikelyCause& cause) { return cause.rms_after_N / cause.rms_before_N; };
  const auto best = std::min_element(causes.begin(), causes.end(),
                                     [&](const auto& a, const auto& b) { return share(a) < share(b); });
  if (!(share(*best) <= explained)) return std::nullopt;
  return *best;
}

}  // namespace coilpull
