// SPDX-License-Identifier: GPL-3.0-or-later
// A force table read back: refused, or a complete grid.
#include "apps/input/force_table_file.hpp"
#include "apps/judgement/force_grid.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  try {
    const ForceTableFile table = read_force_table(read_csv_text(text_of(bytes, size), "fuzzed.csv"));
    if (table.rows.size() != table.displacements.size() * table.currents_A.size())
      found("the grid has holes");
    table.peak_force_N();
    const ForceGrid grid(table);
  } catch (const BadCsv&) {
  }
  return 0;
}
