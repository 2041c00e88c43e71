// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/nearest_name.hpp"

#include <algorithm>
#include <numeric>

namespace coilpull::detail {

namespace {

/// Levenshtein distance, one row of the table at a time.
std::size_t edits(const std::string& from, const std::string& to) {
  std::vector<std::size_t> row(to.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < from.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < to.size(); ++j) {
      const std::size_t replaced = diagonal + (from[i] == to[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return lower;
}

std::optional<std::string> nearest_name(std::string_view wanted, const std::vector<std::string>& names) {
  std::optional<std::string> best;
  std::size_t fewest = std::max<std::size_t>(1, wanted.size() / 3) + 1;
  for (const std::string& name : names) {
    const std::size_t distance = edits(lower_case(wanted), lower_case(name));
    if (distance < fewest) fewest = distance, best = name;
  }
  return best;
}

}  // namespace coilpull::detail
