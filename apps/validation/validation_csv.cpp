// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/validation_csv.hpp"

#include <cmath>

#include "apps/output/csv_cell.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::string row(const std::vector<std::string>& cells) {
  std::string line;
  for (const std::string& one : cells) line += std::string(line.empty() ? "" : ",") + csv_cell(one);
  return line + "\r\n";
}

}  // namespace

std::string validation_csv(const std::vector<Check>& checks) {
  std::string text = row({"source", "what", "unit", "their_value", "their_uncertainty", "their_certainty",
                          "method", "our_value", "difference", "relative_difference", "our_numerical_error",
                          "verdict", "reason", "source_in_full", "file"});
  for (const Check& check : checks)
    text +=
        row({check.source->name, check.what, check.unit, check.their_text, rounded(check.their_bar, 3),
             word_for(check.certainty), check.method, rounded(check.ours, 13), rounded(check.difference(), 4),
             rounded(check.relative_difference(), 4), rounded(check.bar, 3), word_for(verdict_of(check)),
             check.reason, check.source->words, check.source->file});
  return text;
}

std::string line_of(const Check& check) {
  return check.source->name + ", " + check.what + ": theirs " + check.their_text + " " + check.unit +
         ", ours by " + check.method + " " + with_bar({check.ours, check.bar}) + ", difference " +
         rounded(check.difference(), 3);
}

std::string totals_text(const ValidationCounts& counts) {
  const auto of = [](int number) { return std::to_string(number); };
  return of(counts.values) + " published or exact values from " + of(counts.sources) + " sources in " +
         of(counts.checks) + " comparisons: " + of(counts.agrees) + " agree, " + of(counts.explained) +
         " are explained, " + of(counts.differs) + " differ. Apart: " + of(counts.memory) + " from memory, " +
         of(counts.undecided) + " met within a bar too wide to decide, " + of(counts.not_recomputed) +
         " not recomputed.";
}

}  // namespace coilpull
