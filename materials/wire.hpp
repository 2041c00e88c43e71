// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

namespace coilpull {

/// Build of enamel, IEC 60317-0-1. Grade 2 is thicker.
enum class Grade { grade_1, grade_2 };

/// "grade 1" or "grade 2", capitals ignored. @throws BadMaterial  for anything else
Grade insulation_grade(std::string_view words);

/// A line of a wire table.
struct RoundWireSize {
  double bare_m;     ///< nominal conductor diameter [m]
  double overall_m;  ///< largest diameter with enamel [m]
};

/// Nominal sizes of enamelled round copper wire.
class WireTable {
public:
  /// CSV with the columns d_nom_mm, OD_g1_max, OD_g2_max (maximum overall diameters, mm).
  /// @throws BadMaterial  when the file cannot be read or is not such a table
  explicit WireTable(const std::filesystem::path& csv);

  /// The table's entry at a nominal size; between sizes the increase (overall - bare) is interpolated
  /// linearly.
  /// @throws BadMaterial  outside the table, with its range
  RoundWireSize size(double bare_diameter_m, Grade grade) const;

  std::vector<double> nominal_m() const;  ///< bare diameters of all entries, rising

private:
  struct Row {
    double bare_m;
    double increase_m[2];  ///< by grade
  };
  std::vector<Row> rows_;  ///< bare_m rises
};

/// WireTable::size of data_directory()/wire/enamelled_round_iec60317.csv.
RoundWireSize wire_size(double bare_diameter_m, Grade grade);

/// The table that wire_size reads.
WireTable standard_wire_table();

/// ASTM B258: 0.005 in * 92^((36 - n)/39) [m]; 00, 000 and 0000 are n = -1, -2, -3.
/// @throws BadMaterial  unless -3 <= gauge <= 50
double awg_bare_diameter(int gauge);

/// What a wire conducts with.
enum class Metal { copper, aluminium };

const char* word_for(Metal metal);  ///< "copper", "aluminium"

/// "copper" or "aluminium". @throws BadMaterial  with the key "metal" for anything else
Metal metal_called(std::string_view words);

/// Copper: annealed, 1.7241e-8 ohm m at 20 degC, IEC 60028, and 0.00393/K from there. Beware: the nominal
/// resistances printed in IEC 60317-0-1 use 1/58.5e6 ohm m, 0.9 % less. Aluminium: 2.8264e-8 ohm m and
/// 0.00403/K, IEC 60889 from memory.
double resistance_per_metre(Metal metal, double bare_diameter_m, double temperature_degC);

/// What resistance rises by for a kelvin, over what it is at 20 degC: as above.
double resistance_rise_per_kelvin(Metal metal);

/// By mass, near room temperature [J/(kg K)], from memory: copper 385, aluminium 897.
double heat_capacity(Metal metal);

/// Copper 8890 kg/m^3, IEC 60028; aluminium 2703 kg/m^3, IEC 60889 from memory. Without insulation.
double mass_per_metre(Metal metal, double bare_diameter_m);

}  // namespace coilpull
