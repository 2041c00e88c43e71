// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/csv_rows.hpp"

#include "apps/output/number_text.hpp"

namespace coilpull {

std::string csv_rows(const std::string& header, const std::vector<std::vector<double>>& rows) {
  std::string text = header + "\r\n";
  for (const std::vector<double>& row : rows) {
    for (std::size_t k = 0; k < row.size(); ++k)
      text += std::string(k == 0 ? "" : ",") + shortest(as_written(row[k]));
    text += "\r\n";
  }
  return text;
}

}  // namespace coilpull
