// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deque>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "apps/input/csv_file.hpp"
#include "apps/validation/check.hpp"
#include "solver/measure/measurement.hpp"

namespace coilpull {

/// What a published value is: all but our side of a Check.
struct Published {
  const Source* source;
  std::string what, unit;
  std::string text;      ///< as printed
  double their_bar = 0;  ///< half a unit of the last digit is added
  Certainty certainty = Certainty::recomputed;
};

/// Why ours is expected to be off.
struct Cause {
  double shift = 0, shift_bar = 0;
  std::string reason;
};

/// The checks of one family, in the order of its file.
class Record {
public:
  /// Sources live as long as the record and what is taken from it.
  const Source* source(const std::string& name, const std::string& words, const std::string& file);

  void by_finite_elements(const Published& published, const Measured& ours, const Cause& cause = {});
  void by_formula(const Published& published, double ours, double bar, const Cause& cause = {});
  void not_recomputed(const Published& published, const std::string& reason);

  std::vector<Check> checks;
  std::deque<Source> sources;  ///< never moves its elements

private:
  void add(const Published& published, const std::string& method, const Measured& ours, const Cause& cause);
};

/// A figure of data/published, where the program finds its data.
CsvFile read_published(const std::string& file);
std::filesystem::path published_path(const std::string& file);

/// Number that follows the last `key` in the words: ("a/b=0.5", "=") gives 0.5; NaN without key.
double number_after(const std::string& words, const std::string& key);

}  // namespace coilpull
