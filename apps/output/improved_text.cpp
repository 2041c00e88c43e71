// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/improved_text.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "apps/output/csv_cell.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/padded.hpp"
#include "apps/output/variants_csv.hpp"
#include "apps/output/variants_text.hpp"
#include "apps/variants/ranges.hpp"

namespace coilpull {
namespace {

std::string figure_text(const Measured& figure) {
  return figure.error > 0 ? with_bar(figure) : rounded(figure.value, 4);
}

/// "outer_radius_mm 6.9 -> 7.05" of what has changed.
std::string changes_text(const VariantsFile& file, const VariantPlan& plan, const Improvement& one) {
  const std::vector<NumberRange> ranges = ranges_of(file);
  std::string words;
  for (std::size_t p = 0; p < plan.paths.size(); ++p) {
    const std::string &was = plan.variants[one.start].values[p], &is = one.best.values[p];
    const auto range = std::find_if(ranges.begin(), ranges.end(),
                                    [&](const NumberRange& r) { return r.path == plan.paths[p]; });
    if (range == ranges.end() || was == is) continue;
    const double now = std::stod(is);
    const bool at_end = now == range->from || now == range->to;
    words += "      " + plan.paths[p] + ": " + plain_value(was) + " -> " + plain_value(is) +
             (at_end ? ", the end of its range" : "") + "\n";
  }
  return words;
}

}  // namespace

std::string slopes_text(const VariantsFile& file, const BestSlopes& slopes) {
  std::vector<std::pair<double, std::string>> lines;
  for (std::size_t r = 0; r < slopes.per_unit.size(); ++r) {
    if (!std::isfinite(slopes.per_unit[r])) continue;
    const double reach = std::abs(slopes.per_unit[r]) * (slopes.ranges[r].to - slopes.ranges[r].from);
    lines.emplace_back(reach, "  " + padded(slopes.ranges[r].path, 44) +
                                  per_unit_text(slopes.ranges[r].path, slopes.per_unit[r]) + "\n");
  }
  if (lines.empty()) return "";
  std::stable_sort(lines.begin(), lines.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string words = "\nAt the best, variant " + std::to_string(slopes.number) + ", " +
                      file.goals.front().figure + " answers to (slopes of the force there, by the adjoint)\n";
  for (const auto& [reach, line] : lines) words += line;
  return words;
}

std::size_t best_of(const VariantsFile& file, const std::vector<Improvement>& all) {
  const Goal& goal = file.goals.front();
  const auto value = [&](const Improvement& one) {
    return (goal.most ? 1 : -1) * one.result.figures.at(goal.figure).value;
  };
  const auto best = std::max_element(all.begin(), all.end(), [&](const Improvement& a, const Improvement& b) {
    return value(a) < value(b);
  });
  return static_cast<std::size_t>(best - all.begin());
}

std::string improved_text(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                          const std::vector<Improvement>& all) {
  if (all.empty()) return "";
  const std::string& goal = file.goals.front().figure;
  std::string words = "\nThe best made better within their ranges (" + goal + ")\n";
  for (const Improvement& one : all) {
    const Measured was = results[one.start]->figures.at(goal), is = one.result.figures.at(goal);
    words += "  variant " + std::to_string(plan.variants[one.start].number) + ": " + figure_text(was);
    if (one.best.canonical == plan.variants[one.start].canonical)
      words += ", no better one found";
    else
      words += " -> " + figure_text(is) + (differ(was, is) ? "" : ", a difference the bars do not show");
    words += "; " + std::to_string(one.tables) + " tables; ended: " + one.ended + "\n" +
             changes_text(file, plan, one);
  }
  return words;
}

std::string improved_csv(const VariantsFile& file, const VariantPlan& plan,
                         const std::vector<Improvement>& all) {
  std::string text = "start_variant";
  for (const std::string& path : plan.paths) text += "," + csv_cell(path);
  for (const Goal& goal : file.goals) text += "," + goal.figure + ",bar_of_" + goal.figure;
  text += ",tables,ended\r\n";
  for (const Improvement& one : all) {
    text += std::to_string(plan.variants[one.start].number);
    for (const std::string& value : one.best.values) text += "," + csv_cell(plain_value(value));
    for (const Goal& goal : file.goals) {
      const Measured& figure = one.result.figures.at(goal.figure);
      text += "," + shortest(figure.value) + "," + shortest(figure.error);
    }
    text += "," + std::to_string(one.tables) + "," + csv_cell(one.ended) + "\r\n";
  }
  return text;
}

}  // namespace coilpull
