// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/variants_picture.hpp"

#include <algorithm>

#include "apps/output/number_text.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

constexpr Colour inside_colour = {0.20, 0.42, 0.70}, outside_colour = {0.72, 0.72, 0.75},
                 best_colour = {0.80, 0.30, 0.10};

/// Where a design lies; a hole behind it keeps it apart from the next.
void add_dot(Curve& dots, const VariantsFile& file, const VariantResult& result) {
  const double x = result.figures.at(file.goals[0].figure).value,
               y = result.figures.at(file.goals[1].figure).value;
  dots.points.push_back({x, y});
  dots.points.push_back({x, nan});
}

bool knows_both(const VariantsFile& file, const std::optional<VariantResult>& result) {
  return result && result->figures.count(file.goals[0].figure) > 0 &&
         result->figures.count(file.goals[1].figure) > 0;
}

std::string goal_words(const Goal& goal) {
  return goal.figure + (goal.most ? ", the more the better" : ", the less the better");
}

}  // namespace

CurvesPicture goals_picture(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                            const Answers& answers) {
  CurvesPicture picture;
  picture.title = "Variants by their goals";
  picture.below = std::to_string(answers.within.size()) + " designs inside the limits, " +
                  std::to_string(answers.pareto.size()) + " of them in the Pareto set";
  picture.x_words = goal_words(file.goals[0]);
  picture.y_words = goal_words(file.goals[1]);
  picture.foot = "line: the Pareto set; dots: designs inside the limits; pale dots: the others";
  Curve outside{"", outside_colour, {}}, inside{"", inside_colour, {}}, best{"Pareto set", best_colour, {}};
  outside.dashed = inside.dashed = best.dots = true;  // dashed: no band, no label
  for (std::size_t k = 0; k < results.size(); ++k) {
    const bool is_design = k == 0 || plan.variants[k].design != plan.variants[k - 1].design;
    if (!is_design || !knows_both(file, results[k])) continue;
    const bool within = std::find(answers.within.begin(), answers.within.end(), k) != answers.within.end();
    add_dot(within ? inside : outside, file, *results[k]);
  }
  for (const std::size_t k : answers.pareto)
    best.points.push_back({results[k]->figures.at(file.goals[0].figure).value,
                           results[k]->figures.at(file.goals[1].figure).value});
  std::sort(best.points.begin(), best.points.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
  picture.curves = {outside, inside, best};
  return picture;
}

CurvesPicture band_picture(const std::vector<ForceBandRow>& band, const std::string& title) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = "axial force; band: nine of ten draws of the tolerances";
  picture.x_words = "displacement (mm)";
  picture.y_words = "axial force (N)";
  Curve spread{"", inside_colour, {}}, drawn{"as drawn", inside_colour, {}};
  spread.band_only = true;
  for (const ForceBandRow& row : band) {
    const double x = in_mm(row.displacement), low = row.force_N.p05, high = row.force_N.p95;
    spread.points.push_back({x, 0.5 * (low + high), 0.5 * (high - low)});
    drawn.points.push_back({x, row.drawn_N});
  }
  picture.curves = {spread, drawn};
  return picture;
}

}  // namespace coilpull
