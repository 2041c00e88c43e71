// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/bad_csv.hpp"

#include "apps/output/plain_text.hpp"

namespace coilpull {

void refuse_csv(const CsvPlace& place, const std::string& fact, const std::string& advice) {
  std::string words = place.file;
  if (place.line > 0) words += ":" + std::to_string(place.line);
  words += ": ";
  if (!place.column.empty()) {
    words += plain_text(place.column);
    if (!place.value.empty()) words += " = " + plain_text(place.value);
    words += ": ";
  }
  throw BadCsv(words + plain_text(fact) + "\n  " + advice);
}

}  // namespace coilpull
