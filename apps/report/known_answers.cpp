// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/known_answers.hpp"

#include <map>

#include "apps/input/csv_file.hpp"
#include "materials/data_directory.hpp"

namespace coilpull {

std::string known_answers_text() {
  const std::filesystem::path file = data_directory() / "validation/validation.csv";
  if (!std::filesystem::exists(file))
    return "coilpull validate computes published and exact cases once more and tells where they agree.";
  const CsvFile csv = read_csv_file(file);
  std::map<std::string, int> verdicts;
  for (std::size_t i = 0; i < csv.records.size(); ++i) ++verdicts[csv.text_at(i, "verdict")];
  return "Of the published and exact cases that come with the program, " +
         std::to_string(verdicts["agrees"]) + " comparisons agree within both error bars, " +
         std::to_string(verdicts["explained"]) +
         " are further apart for a known reason of a known size, and " + std::to_string(verdicts["differs"]) +
         " differ without one. coilpull validate computes them all once more.";
}

}  // namespace coilpull
