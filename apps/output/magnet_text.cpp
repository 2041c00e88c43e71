// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/magnet_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"

namespace coilpull {
namespace {

/// The row that drives magnet k hardest; null: no row is usable.
const Measurement* hardest(const ForceTable& table, std::size_t k) {
  const Measurement* worst = nullptr;
  for (const Measurement& row : table.rows)
    if (k < row.magnets.size() && !(worst && worst->magnets[k].b_p01_T <= row.magnets[k].b_p01_T))
      worst = &row;
  return worst;
}

std::string knee_words(const ForceTable& table, std::size_t k, const Measurement& worst) {
  if (std::isnan(worst.magnets[k].past_knee)) return "its knee is not known: compare with a data sheet";
  const auto past = std::count_if(table.rows.begin(), table.rows.end(), [k](const Measurement& row) {
    return k < row.magnets.size() && row.magnets[k].changed_for_good();
  });
  if (past == 0) return "never past its knee";
  const double most = std::max_element(table.rows.begin(), table.rows.end(),
                                       [k](const Measurement& a, const Measurement& b) {
                                         const auto share = [k](const Measurement& row) {
                                           return k < row.magnets.size() ? row.magnets[k].past_knee : 0;
                                         };
                                         return share(a) < share(b);
                                       })
                          ->magnets[k]
                          .past_knee;
  return "PAST ITS KNEE in " + std::to_string(past) + " of " + std::to_string(table.rows.size()) +
         " rows (up to " + rounded(100 * most, most < 0.1 ? 2 : 3) +
         " % of its volume):\n    what these rows say, and all that comes after them, is not true: the "
         "magnet is "
         "changed for good";
}

}  // namespace

std::string magnet_lines(const ForceTable& table) {
  std::string text;
  for (std::size_t k = 0; k < table.magnets.size(); ++k)
    if (const Measurement* worst = hardest(table, k))
      text += "Magnet " + table.magnets[k] + ": 1 % of it is below " + rounded(worst->magnets[k].b_p01_T, 3) +
              " T " + where(table, *worst) + "; " + knee_words(table, k, *worst) + ".\n";
  return text;
}

}  // namespace coilpull
