// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/spread/force_spread.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"

namespace coilpull {
namespace {

/// How far an input can lower (<= 0) and raise (>= 0) the force of a row; NaN when an end has no force there.
ForceRange change_of(const InputEffect& effect, const ForceTable& table, std::size_t row) {
  ForceRange change{0, 0};
  for (const ForceTable& end : effect.ends) {
    const double by = end.rows[row].force_N.value - table.rows[row].force_N.value;
    change.low_N = std::isnan(by) ? by : std::min(change.low_N, by);
    change.high_N = std::isnan(by) ? by : std::max(change.high_N, by);
    if (std::isnan(by)) break;
  }
  return change;
}

std::size_t strongest_row(const ForceTable& table) {
  std::size_t strongest = 0;
  double most = -1;
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    if (const double size = std::abs(table.rows[i].force_N.value); size > most) most = size, strongest = i;
  return strongest;
}

std::string signed_text(double value) { return std::string(value > 0 ? "+" : "") + rounded(value, 2); }

}  // namespace

void add_spread(ForceTable& table, const std::vector<InputEffect>& effects) {
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const double force = table.rows[i].force_N.value;
    ForceRange range{force, force};
    for (const InputEffect& effect : effects) {
      const ForceRange change = change_of(effect, table, i);
      range.low_N += change.low_N;
      range.high_N += change.high_N;
    }
    table.rows[i].spread = range;
  }
}

std::string spread_text(const ForceTable& table, const std::vector<InputEffect>& effects) {
  if (effects.empty() || table.rows.empty()) return "Input spread: nothing of the input has a range.\n";
  const std::size_t row = strongest_row(table);
  std::vector<std::pair<double, std::string>> lines;
  for (const InputEffect& effect : effects) {
    const ForceRange change = change_of(effect, table, row);
    lines.push_back({change.high_N - change.low_N, "  " + effect.words + ": " + signed_text(change.low_N) +
                                                       " to " + signed_text(change.high_N) + " N\n"});
  }
  std::stable_sort(lines.begin(), lines.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  const Measurement& strongest = table.rows[row];
  std::string text = "Input spread of the strongest force, " + with_bar(strongest.force_N) + " N " +
                     where(table, strongest) + ": ";
  if (strongest.spread)
    text += rounded(strongest.spread->low_N, 3) + " to " + rounded(strongest.spread->high_N, 3) + " N\n";
  for (const auto& [size, words] : lines) text += words;
  return text +
         "  Ranges are those of the grade and of [spread] in the device file, else common practice without "
         "a\n"
         "  source; all at their worst at once.\n";
}

}  // namespace coilpull
