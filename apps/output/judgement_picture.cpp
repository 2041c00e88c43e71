// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/judgement_picture.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"
#include "apps/output/table_pictures.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

constexpr std::size_t points_between_rows = 4;
constexpr std::size_t most_dots = 2000;  // of a curve: more fill the memory, and no eye tells them apart

using Sets = std::map<std::vector<double>, std::vector<const JudgedPoint*>>;

/// Of each few neighbours the one that is farthest from the table.
std::vector<const JudgedPoint*> farthest_of_neighbours(const std::vector<const JudgedPoint*>& points) {
  std::vector<const JudgedPoint*> kept;
  for (std::size_t k = 0; k < most_dots; ++k)
    kept.push_back(
        *std::max_element(points.begin() + static_cast<std::ptrdiff_t>(k * points.size() / most_dots),
                          points.begin() + static_cast<std::ptrdiff_t>((k + 1) * points.size() / most_dots),
                          [](const auto* a, const auto* b) {
                            return std::abs(a->difference_N()) < std::abs(b->difference_N());
                          }));
  return kept;
}

/// Judged points by currents, each set by rising displacement; at most as many sets as can be read.
Sets shown_sets(const Judgement& judgement) {
  Sets all, shown;
  for (const JudgedPoint* point : judgement.judged()) all[point->currents_A].push_back(point);
  std::vector<Sets::iterator> in_order;
  for (auto set = all.begin(); set != all.end(); ++set) in_order.push_back(set);
  for (const std::size_t i : readable_subset(in_order.size())) shown.insert(*in_order[i]);
  for (auto& set : shown) {
    std::stable_sort(set.second.begin(), set.second.end(),
                     [](const auto* a, const auto* b) { return a->displacement < b->displacement; });
    if (set.second.size() > most_dots) set.second = farthest_of_neighbours(set.second);
  }
  return shown;
}

std::string label_for(const std::vector<std::string>& circuits, const std::vector<double>& currents_A) {
  if (circuits.size() == 1) return rounded(currents_A.front(), 6) + " A";
  return currents_text(circuits, currents_A);
}

/// By the one circuit that varies, else by order.
Colour colour_for(const Sets& sets, const std::vector<double>& currents_A, std::size_t number) {
  if (currents_A.size() == 1) {
    double most = 0;
    for (const auto& set : sets) most = std::max(most, std::abs(set.first.front()));
    return on_signed_scale(most > 0 ? currents_A.front() / most : 0);
  }
  return on_order_scale(sets.size() < 2 ? 0
                                        : static_cast<double>(number) / static_cast<double>(sets.size() - 1));
}

std::vector<CurvePoint> table_curve(const ForceGrid& grid, const std::vector<double>& currents_A,
                                    double scale) {
  std::vector<CurvePoint> curve;
  const std::vector<double>& rows = grid.table().displacements;
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (std::size_t k = 0; k < (i + 1 < rows.size() ? points_between_rows : 1); ++k) {
      const double part = static_cast<double>(k) / static_cast<double>(points_between_rows);
      const double at = k == 0 ? rows[i] : rows[i] + part * (rows[i + 1] - rows[i]);
      const GridAnswer answer = grid.at(at, currents_A);
      curve.push_back({in_mm(at), answer.force ? scale * answer.force->force_N : nan,
                       answer.force ? scale * (answer.force->bar_N + answer.force->between_rows_N) : 0});
    }
  return curve;
}

/// The person's points, each alone: a line between sparse ones would tell a force that nobody measured.
Curve dots(const std::vector<const JudgedPoint*>& points, const Colour& colour, double scale) {
  Curve mine{"", colour, {}};
  for (const JudgedPoint* point : points) {
    const double x = in_mm(point->displacement);
    mine.points.push_back({x, scale * point->mine_N, 0});
    mine.points.push_back({x, nan, 0});
  }
  mine.dashed = true;  // no band, no label
  return mine;
}

CurvesPicture empty_picture(const Judgement& judgement, const ForceGrid& grid, const std::string& title,
                            const std::string& below) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = below;
  picture.x_words = "displacement (mm)";
  const auto& circuits = grid.table().circuits;
  picture.labels_head = circuits.size() == 1 && !judgement.points.empty() ? circuits.front() : "";
  return picture;
}

}  // namespace

CurvesPicture judgement_picture(const Judgement& judgement, const ForceGrid& grid, const std::string& title) {
  const bool small = judgement.peak_force_N < 0.3;
  const double scale = small ? 1e3 : 1;
  CurvesPicture picture = empty_picture(judgement, grid, title,
                                        "axial force, one curve a current; bands: what the table is sure of");
  picture.y_words = small ? "axial force (mN)" : "axial force (N)";
  picture.foot = "lines: the table; dots: yours";
  const Sets sets = shown_sets(judgement);
  std::size_t number = 0;
  for (const auto& [currents_A, points] : sets) {
    const Colour colour = colour_for(sets, currents_A, number++);
    picture.curves.push_back(
        {label_for(grid.table().circuits, currents_A), colour, table_curve(grid, currents_A, scale)});
    picture.curves.push_back(dots(points, colour, scale));
  }
  return picture;
}

CurvesPicture judgement_ratio_picture(const Judgement& judgement, const ForceGrid& grid,
                                      const std::string& title) {
  CurvesPicture picture = empty_picture(judgement, grid, title,
                                        "your force over the table's, one curve a current; bands: the bars");
  picture.y_words = "yours over the table's";
  picture.foot = "1: they agree.  Left out where the table is below a twentieth of its peak";
  const Sets sets = shown_sets(judgement);
  std::size_t number = 0;
  for (const auto& [currents_A, points] : sets) {
    Curve ratio{label_for(grid.table().circuits, currents_A), colour_for(sets, currents_A, number++), {}};
    for (const JudgedPoint* point : points) {
      const double force = point->table->force_N;
      const bool told = std::abs(force) >= 0.05 * judgement.peak_force_N;
      ratio.points.push_back({in_mm(point->displacement), told ? point->mine_N / force : nan,
                              told ? point->allowed_N() / std::abs(force) : 0});
    }
    ratio.dots = true;
    picture.curves.push_back(std::move(ratio));
  }
  return picture;
}

}  // namespace coilpull
