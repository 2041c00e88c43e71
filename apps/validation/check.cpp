// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/check.hpp"

#include <cmath>
#include <cstdlib>
#include <set>
#include <stdexcept>
#include <tuple>

namespace coilpull {

const char* word_for(Certainty certainty) {
  switch (certainty) {
    case Certainty::read:
      return "read";
    case Certainty::recomputed:
      return "recomputed";
    case Certainty::memory:
      return "memory";
  }
  throw std::logic_error("unknown certainty");
}

const char* word_for(Verdict verdict) {
  switch (verdict) {
    case Verdict::agrees:
      return "agrees";
    case Verdict::undecided:
      return "undecided";
    case Verdict::explained:
      return "explained";
    case Verdict::differs:
      return "differs";
    case Verdict::not_recomputed:
      return "not recomputed";
    case Verdict::none:
      return "";
  }
  throw std::logic_error("unknown verdict");
}

double Check::relative_difference() const {
  if (theirs == 0) return ours == 0 ? 0 : std::numeric_limits<double>::quiet_NaN();
  return difference() / std::abs(theirs);
}

Verdict verdict_of(const Check& check) {
  if (check.certainty == Certainty::memory) return Verdict::none;
  if (!std::isfinite(check.ours)) return check.reason.empty() ? Verdict::differs : Verdict::not_recomputed;
  const double allowed = check.bar + check.their_bar;
  if (std::abs(check.difference()) <= allowed)
    return allowed <= decisive_bar * std::abs(check.theirs) ? Verdict::agrees : Verdict::undecided;
  const bool expected = std::abs(check.difference() - check.shift) <= allowed + check.shift_bar;
  return expected && !check.reason.empty() ? Verdict::explained : Verdict::differs;
}

double half_last_digit(const std::string& printed) {
  char* end = nullptr;
  std::strtod(printed.c_str(), &end);
  if (end == printed.c_str() || *end != '\0')
    throw std::invalid_argument("not a number: \"" + printed + "\"");
  const std::size_t power = printed.find_first_of("eE");
  const std::string digits = printed.substr(0, power);
  const std::size_t point = digits.find('.');
  const int decimals = point == std::string::npos ? 0 : static_cast<int>(digits.size() - point - 1);
  const int exponent = power == std::string::npos ? 0 : std::atoi(printed.c_str() + power + 1);
  return 0.5 * std::pow(10, exponent - decimals);
}

ValidationCounts count(const std::vector<Check>& checks) {
  ValidationCounts all;
  std::set<std::tuple<std::string, std::string, std::string>> values;
  std::set<std::string> sources;
  for (const Check& check : checks) {
    const Verdict verdict = verdict_of(check);
    switch (verdict) {
      case Verdict::agrees:
        ++all.agrees;
        break;
      case Verdict::undecided:
        ++all.undecided;
        continue;
      case Verdict::explained:
        ++all.explained;
        break;
      case Verdict::differs:
        ++all.differs;
        break;
      case Verdict::not_recomputed:
        ++all.not_recomputed;
        continue;
      case Verdict::none:
        ++all.memory;
        continue;
    }
    ++all.checks;
    values.emplace(check.source->name, check.what, check.their_text);
    sources.insert(check.source->name);
  }
  all.values = static_cast<int>(values.size());
  all.sources = static_cast<int>(sources.size());
  return all;
}

}  // namespace coilpull
