// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/judgement/judge.hpp"

#include <cmath>

namespace coilpull {

std::optional<bool> JudgedPoint::inside_spread() const {
  if (!table || std::isnan(table->low_N) || std::isnan(table->high_N)) return std::nullopt;
  return mine_N >= table->low_N - allowed_N() && mine_N <= table->high_N + allowed_N();
}

std::vector<const JudgedPoint*> Judgement::judged() const {
  std::vector<const JudgedPoint*> chosen;
  for (const JudgedPoint& point : points)
    if (point.verdict != AgainstBar::not_judged) chosen.push_back(&point);
  return chosen;
}

Judgement judge(const ForceGrid& grid, const MeasuredFile& mine) {
  Judgement judgement{{}, grid.table().peak_force_N()};
  for (const MeasuredRow& row : mine.rows) {
    if (!row.results.front()) continue;
    const GridAnswer answer = grid.at(row.displacement, row.currents_A);
    JudgedPoint point{row.line,
                      row.displacement,
                      row.currents_A,
                      row.results.front()->value,
                      2 * row.results.front()->uncertainty.value_or(0),
                      answer.force,
                      AgainstBar::not_judged,
                      answer.why};
    if (point.table)
      point.verdict =
          std::abs(point.difference_N()) <= point.allowed_N() ? AgainstBar::inside : AgainstBar::outside;
    judgement.points.push_back(std::move(point));
  }
  return judgement;
}

double rms_difference_N(const std::vector<const JudgedPoint*>& points) {
  double sum = 0;
  for (const JudgedPoint* point : points) sum += point->difference_N() * point->difference_N();
  return points.empty() ? 0 : std::sqrt(sum / static_cast<double>(points.size()));
}

}  // namespace coilpull
