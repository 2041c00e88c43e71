// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>

namespace coilpull {

/// A CSV file cannot be used. what(): place, fact, what is allowed; then, indented, what to do.
struct BadCsv : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A place in a CSV file, as a message names it.
struct CsvPlace {
  std::string file;         ///< as the person named it
  std::size_t line = 0;     ///< from 1; 0: the file as a whole
  std::string column = {};  ///< words of the header; empty: the line as a whole
  std::string value = {};   ///< as it stands in the file
};

/// @throws BadCsv  "mine.csv:7: force [N] = 3..2: <fact>", and on a second, indented line the advice
[[noreturn]] void refuse_csv(const CsvPlace& place, const std::string& fact, const std::string& advice);

}  // namespace coilpull
