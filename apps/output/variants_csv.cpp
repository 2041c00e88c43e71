// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/variants_csv.hpp"

#include <set>

#include "apps/output/csv_cell.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

/// Figures that some result has, in the order of figure_words(), and those of them with a bar.
struct Shown {
  std::vector<std::string> figures;
  std::set<std::string> with_bar;
};

Shown shown_of(const std::vector<std::optional<VariantResult>>& results) {
  std::set<std::string> known;
  Shown shown;
  for (const auto& result : results) {
    if (!result) continue;
    for (const auto& [name, figure] : result->figures) {
      known.insert(name);
      if (figure.error > 0) shown.with_bar.insert(name);
    }
  }
  for (const std::string& name : figure_names())
    if (known.count(name) > 0) shown.figures.push_back(name);
  return shown;
}

}  // namespace

std::string plain_value(const std::string& toml) {
  if (toml.size() < 2 || toml.front() != '"') return toml;
  return toml.substr(1, toml.size() - 2);
}

std::string variants_csv(const VariantPlan& plan, const std::vector<std::optional<VariantResult>>& results) {
  const Shown shown = shown_of(results);
  std::string text = "variant,design";
  for (const std::string& path : plan.paths) text += "," + csv_cell(path);
  for (const std::string& name : shown.figures)
    text += "," + name + (shown.with_bar.count(name) > 0 ? ",bar_of_" + name : "");
  text += ",status\r\n";
  for (std::size_t k = 0; k < plan.variants.size(); ++k) {
    const Variant& variant = plan.variants[k];
    const std::optional<VariantResult>& result = results.at(k);
    text += std::to_string(variant.number) + "," + std::to_string(variant.design);
    for (const std::string& value : variant.values) text += "," + csv_cell(plain_value(value));
    for (const std::string& name : shown.figures) {
      const bool known = result && result->figures.count(name) > 0;
      const Measured figure = known ? result->figures.at(name) : Measured{};
      text += "," + (known ? shortest(figure.value) : "NaN");
      if (shown.with_bar.count(name) > 0) text += "," + (known ? shortest(figure.error) : "NaN");
    }
    text += "," + (result ? result->status : "due") + "\r\n";
  }
  return text;
}

}  // namespace coilpull
