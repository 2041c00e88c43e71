// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/nearest_name.hpp"

#include <algorithm>
#include <cctype>

namespace coilpull {

namespace {

bool same(char a, char b) {
  return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
}

}  // namespace

std::size_t letters_apart(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last = last;
    last = row;
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = last[j - 1] + (same(a[i - 1], b[j - 1]) ? 0 : 1);
      row[j] = std::min({changed, last[j] + 1, row[j - 1] + 1});
      if (i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1]))
        row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

std::optional<std::string> nearest_name(std::string_view word, const std::vector<std::string>& candidates) {
  std::optional<std::string> nearest;
  std::size_t least = 3;
  for (const std::string& candidate : candidates) {
    const std::size_t apart = letters_apart(word, candidate);
    if (apart < least && 3 * apart <= std::max(word.size(), candidate.size())) {
      least = apart;
      nearest = candidate;
    }
  }
  return nearest;
}

std::string listed(const std::vector<std::string>& names) {
  std::string words;
  for (const std::string& name : names) words += (words.empty() ? "" : ", ") + name;
  return words;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
  if (const auto meant = nearest_name(word, known)) return "Did you mean \"" + *meant + "\"?";
  return "There is: " + listed(known) + ".";
}

}  // namespace coilpull
