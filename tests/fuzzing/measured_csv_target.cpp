// SPDX-License-Identifier: GPL-3.0-or-later
// Measured forces, fields and inductances: refused, or read for a device with one circuit and one with two.
#include <cmath>

#include "apps/input/measured_file.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const KnownNames one{{"drive"}, {std::nullopt}, {"exit"}}, two{{"drive", "hold"}, {std::nullopt, 0.5}};
  for (const KnownNames& names : {one, two}) try {
      const MeasuredFile file =
          read_measured(read_csv_text(text_of(bytes, size), "fuzzed.csv"), names, {true, true, true});
      for (const MeasuredRow& row : file.rows) {
        if (row.results.size() != file.columns.size()) found("a row has other columns than its file");
        if (row.currents_A.size() != names.circuits.size()) found("a row lacks a current");
        if (!std::isfinite(row.displacement)) found("a displacement is not finite");
      }
    } catch (const BadCsv&) {
    }
  return 0;
}
