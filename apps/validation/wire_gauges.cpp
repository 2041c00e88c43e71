// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/families.hpp"
#include "materials/wire.hpp"

namespace coilpull {

void check_wire_gauges(Record& record) {
  const Source* source =
      record.source("Kuphaldt, wire table",
                    "T. R. Kuphaldt, Lessons in Electric Circuits, table of AWG bare diameters; "
                    "ours by the rule of ASTM B258",
                    "wire_awg.csv");
  const CsvFile table = read_published("wire_awg.csv");
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const std::string &gauge = table.text_at(i, "AWG"), &printed = table.text_at(i, "d_in_printed");
    if (printed.empty()) continue;
    const bool zeros = gauge.find_first_not_of('0') == std::string::npos;
    const int number = zeros ? 1 - static_cast<int>(gauge.size()) : std::stoi(gauge);
    record.by_formula({source, "AWG " + gauge + ": bare diameter", "in", printed, 0, Certainty::read},
                      awg_bare_diameter(number) / 0.0254, 1e-15);
  }
}

}  // namespace coilpull
