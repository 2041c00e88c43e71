// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>
#include <string>
#include <vector>

namespace coilpull {

/// Where the figures of a source come from, and how far they can be trusted.
enum class Certainty {
  read,        ///< stood in a stored copy of the source or of a transcription
  recomputed,  ///< worked out from the source's closed formula or definition, by a route that is not ours
  memory       ///< from memory: shown, never judged
};

const char* word_for(Certainty certainty);

/// A book, a paper, a law of physics with an exact solution, or an independent computation.
struct Source {
  std::string name;   ///< short, "Nagaoka 1909"
  std::string words;  ///< in full, with what is compared
  std::string file;   ///< under data/published
};

/// One published value against one computation of ours.
struct Check {
  const Source* source = nullptr;
  std::string what, unit;
  std::string their_text;  ///< as printed in the file, without unit
  double theirs = std::numeric_limits<double>::quiet_NaN();
  double their_bar = 0;  ///< half a unit of the last digit, or the stated uncertainty when that is wider
  Certainty certainty = Certainty::recomputed;

  std::string method;  ///< "finite elements", "closed formula", ...
  double ours = std::numeric_limits<double>::quiet_NaN();
  double bar = 0;  ///< half width of our numerical error bar, the cost of a replaced geometry included

  /// What is known to part the two, e.g. fringing that the source neglects: ours - theirs is expected to be
  /// shift +- shift_bar. Without a reason both are 0.
  double shift = 0, shift_bar = 0;
  std::string reason;  ///< also: why a value is not recomputed

  double difference() const { return ours - theirs; }
  double relative_difference() const;
};

enum class Verdict {
  agrees,          ///< |ours - theirs| <= bar + their_bar
  undecided,       ///< the same, but bar + their_bar is wider than decisive_bar of their value
  explained,       ///< |ours - theirs - shift| <= bar + their_bar + shift_bar, with a reason
  differs,         ///< neither
  not_recomputed,  ///< with a reason
  none             ///< from memory
};

/// An agreement within a wider bar, as a fraction of their value, says little.
inline constexpr double decisive_bar = 0.05;

Verdict verdict_of(const Check& check);
const char* word_for(Verdict verdict);

/// Half a unit of the last printed digit: 5e-4 for "0.796", 5e-13 for "1.000e-9".
/// @throws std::invalid_argument  for what is no number
double half_last_digit(const std::string& printed);

struct ValidationCounts {
  int values = 0;   ///< distinct published values with a verdict
  int checks = 0;   ///< comparisons: a value may be computed by finite elements and by a closed formula
  int sources = 0;  ///< with at least one verdict
  int agrees = 0, undecided = 0, explained = 0, differs = 0, not_recomputed = 0, memory = 0;
};

ValidationCounts count(const std::vector<Check>& checks);

}  // namespace coilpull
