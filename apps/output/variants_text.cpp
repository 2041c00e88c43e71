// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/variants_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/csv_cell.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/padded.hpp"
#include "apps/output/variants_csv.hpp"

namespace coilpull {
namespace {

constexpr std::size_t most_told = 5, most_of_pareto = 10, most_effects = 8;

const Measured& goal_of(const Goal& goal, const VariantResults& results, std::size_t k) {
  return results[k]->figures.at(goal.figure);
}

std::string with_its_bar(const Measured& figure) {
  return figure.error > 0 ? with_bar(figure) : rounded(figure.value, 4);
}

/// "turns = 120, outer_radius_mm = 7": without what strays.
std::string choice_text(const VariantPlan& plan, std::size_t k) {
  std::string words;
  for (std::size_t p = 0; p < plan.paths.size(); ++p)
    if (!plan.strays[p])
      words += (words.empty() ? "" : ", ") + plan.paths[p] + " = " + plain_value(plan.variants[k].values[p]);
  return words;
}

std::string line_of(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                    std::size_t k) {
  std::string words = "  " + padded(std::to_string(plan.variants[k].number), 6);
  for (const Goal& goal : file.goals)
    words += goal.figure + " " + padded(with_its_bar(goal_of(goal, results, k)), 22);
  return words + "\n          " + choice_text(plan, k) + "\n";
}

std::string ranking_text(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                         const std::vector<std::size_t>& ranked, const Goal& goal) {
  if (ranked.empty()) return "";
  const Measured& best = goal_of(goal, results, ranked.front());
  const auto alike =
      static_cast<std::size_t>(std::count_if(ranked.begin() + 1, ranked.end(), [&](std::size_t k) {
        return !differ(best, goal_of(goal, results, k));
      }));
  std::string words = std::string("\n") + (goal.most ? "Most " : "Least ") + goal.figure;
  words += alike > 0
               ? "; the bars leave no difference between the first and " + std::to_string(alike) + " others\n"
               : "\n";
  for (std::size_t n = 0; n < std::min(most_told, ranked.size()); ++n)
    words += line_of(file, plan, results, ranked[n]);
  return words;
}

std::string pareto_text(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                        const Answers& answers) {
  if (file.goals.size() < 2 || answers.pareto.empty()) return "";
  std::string words = "\nNo other is better in one goal without being worse in another: " +
                      std::to_string(answers.pareto.size()) + " variants, all in pareto.csv\n";
  for (std::size_t n = 0; n < std::min(most_of_pareto, answers.pareto.size()); ++n)
    words += line_of(file, plan, results, answers.pareto[n]);
  return words;
}

std::string effects_text(const Goal& goal, const MainEffects& found) {
  if (found.effects.empty()) return "\nToo few different designs to tell what moves " + goal.figure + ".\n";
  std::string words = "\nWhat moves " + goal.figure + " (straight lines through all designs tell " +
                      rounded(100 * found.explained, 3) + " % of it)\n";
  for (std::size_t n = 0; n < std::min(most_effects, found.effects.size()); ++n) {
    const MainEffect& effect = found.effects[n];
    words +=
        "  " + padded(effect.path + (effect.level.empty() ? "" : " = " + plain_value(effect.level)), 44) +
        rounded(effect.over_range, 3) + (effect.level.empty() ? " over its range" : " against the mean") +
        (std::isfinite(effect.per_unit) ? ", " + per_unit_text(effect.path, effect.per_unit) : "") + "\n";
  }
  return words;
}

std::string tolerances_text(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                            const Answers& answers) {
  std::string words;
  for (std::size_t g = 0; g < file.goals.size(); ++g) {
    if (answers.ranked[g].empty()) continue;
    const Variant& best = plan.variants[answers.ranked[g].front()];
    if (const auto left = quantiles_of(file.goals[g].figure, best, plan, results))
      words += "  " + file.goals[g].figure + " of variant " + std::to_string(best.number) + ": " +
               rounded(left->p05, 4) + " to " + rounded(left->p95, 4) + ", middle " + rounded(left->p50, 4) +
               "\n";
  }
  return words.empty() ? "" : "\nWhat the tolerances leave of the best: nine of ten draws lie\n" + words;
}

}  // namespace

std::string per_unit_text(const std::string& path, double per_unit) {
  const std::string end = "_mm";
  const bool mm = path.size() > end.size() && path.compare(path.size() - end.size(), end.size(), end) == 0;
  return rounded(mm ? 0.1 * per_unit : per_unit, 3) + (mm ? " per 0.1 mm" : " per 1");
}

std::string answers_text(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                         const Answers& answers) {
  if (file.goals.empty()) return "\nNo [goals]: every figure is in variants.csv.\n";
  if (answers.within.empty()) return "\nNo variant is inside the limits with every goal known.\n";
  std::string words = "\n" + std::to_string(answers.within.size()) + " designs are inside the limits.\n";
  for (std::size_t g = 0; g < file.goals.size(); ++g)
    words += ranking_text(file, plan, results, answers.ranked[g], file.goals[g]);
  words += pareto_text(file, plan, results, answers);
  for (std::size_t g = 0; g < file.goals.size(); ++g)
    words += effects_text(file.goals[g], answers.effects[g]);
  return words + tolerances_text(file, plan, results, answers);
}

std::string pareto_csv(const VariantsFile& file, const VariantPlan& plan, const VariantResults& results,
                       const Answers& answers) {
  std::string text = "variant";
  for (const std::string& path : plan.paths) text += "," + csv_cell(path);
  for (const Goal& goal : file.goals) text += "," + goal.figure + ",bar_of_" + goal.figure;
  text += "\r\n";
  std::vector<std::size_t> order = answers.pareto;
  if (!file.goals.empty())
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return goal_of(file.goals[0], results, a).value < goal_of(file.goals[0], results, b).value;
    });
  for (const std::size_t k : order) {
    text += std::to_string(plan.variants[k].number);
    for (const std::string& value : plan.variants[k].values) text += "," + csv_cell(plain_value(value));
    for (const Goal& goal : file.goals) {
      const Measured& figure = goal_of(goal, results, k);
      text += "," + shortest(figure.value) + "," + shortest(figure.error);
    }
    text += "\r\n";
  }
  return text;
}

std::string main_effects_csv(const VariantsFile& file, const Answers& answers) {
  std::string text = "goal,key,level,change_over_range,change_per_unit\r\n";
  for (std::size_t g = 0; g < file.goals.size(); ++g)
    for (const MainEffect& effect : answers.effects[g].effects)
      text += file.goals[g].figure + "," + csv_cell(effect.path) + "," + csv_cell(plain_value(effect.level)) +
              "," + shortest(effect.over_range) + "," + shortest(effect.per_unit) + "\r\n";
  return text;
}

std::string band_csv(const std::vector<ForceBandRow>& band) {
  std::string text =
      "displacement_mm,force_as_drawn_N,force_5_percent_N,force_50_percent_N,force_95_percent_N\r\n";
  for (const ForceBandRow& row : band)
    text += shortest(in_mm(row.displacement)) + "," + shortest(row.drawn_N) + "," +
            shortest(row.force_N.p05) + "," + shortest(row.force_N.p50) + "," + shortest(row.force_N.p95) +
            "\r\n";
  return text;
}

}  // namespace coilpull
