// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/solved_rows.hpp"

#include <cmath>

namespace coilpull {

ForceTable solved_rows(const ForceTableFile& file) {
  ForceTable table;
  table.circuits = file.circuits;
  table.currents_per_displacement = file.currents_A.size();
  table.sensors = file.sensors;
  table.peak_force_N = file.peak_force_N();
  for (std::size_t d = 0; d < file.displacements.size(); ++d)
    for (std::size_t set = 0; set < file.currents_A.size(); ++set) {
      const TabledForce& found = file.at(d, set);
      Measurement row{};
      row.displacement = file.displacements[d];
      row.clearance = std::nan("");
      row.currents_A = file.currents_A[set];
      row.force_N = {found.force_N, found.bar_N};
      for (std::size_t k = 0; k < file.circuits.size(); ++k)
        row.linkage_Wb.push_back(k < found.linkage_Wb.size()
                                     ? Measured{found.linkage_Wb[k], found.linkage_bar_Wb[k]}
                                     : Measured{std::nan(""), std::nan("")});
      row.coenergy_J = found.coenergy_J;
      if (file.has_spread) row.spread = ForceRange{found.low_N, found.high_N};
      row.sensors = found.sensors;
      row.sensors.resize(file.sensors.size(), {std::nan(""), std::nan("")});  // a row that is missing
      table.rows.push_back(row);
    }
  return table;
}

}  // namespace coilpull
