// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/hysteresis/remanence_bracket.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::string mm(double metres) { return rounded(in_mm(metres), 5) + " mm"; }

/// Largest distance of either state to the plain one; where.
struct Largest {
  double size = -1;
  std::size_t row = 0;
};

template <class Quantity>
Largest largest_change(const RemanenceBracket& bracket, const Quantity& quantity) {
  Largest largest;
  for (std::size_t i = 0; i < bracket.plain.rows.size(); ++i)
    for (const ForceTable* table : {&bracket.towards_plus, &bracket.towards_minus}) {
      const double size = std::abs(quantity(table->rows[i]) - quantity(bracket.plain.rows[i]));
      if (size > largest.size) largest = {size, i};
    }
  return largest;
}

std::string force_lines(const RemanenceBracket& bracket) {
  const Largest most = largest_change(bracket, [](const Measurement& row) { return row.force_N.value; });
  if (most.size < 0) return "No displacement could be solved in all three states.\n";
  const Measurement& plain = bracket.plain.rows[most.row];
  return "Force with the current off, at " + mm(plain.displacement) + " where remanence changes it most:\n" +
         "  no remanence:                    " + with_bar(plain.force_N) + " N\n" +
         "  cores left magnetised towards +z: " + with_bar(bracket.towards_plus.rows[most.row].force_N) +
         " N\n" +
         "  cores left magnetised towards -z: " + with_bar(bracket.towards_minus.rows[most.row].force_N) +
         " N\n";
}

std::string sensor_lines(const RemanenceBracket& bracket) {
  std::string text;
  for (std::size_t k = 0; k < bracket.plain.sensors.size(); ++k) {
    const auto bz = [k](const Measurement& row) {
      return k < row.sensors.size() ? row.sensors[k].bz_T : std::nan("");
    };
    const Largest most = largest_change(bracket, bz);
    if (most.size < 0) continue;
    text += "Sensor " + bracket.plain.sensors[k] + ": B_z is off by " +
            rounded(1e3 * (bz(bracket.towards_minus.rows[most.row]) - bz(bracket.plain.rows[most.row])), 3) +
            " to " +
            rounded(1e3 * (bz(bracket.towards_plus.rows[most.row]) - bz(bracket.plain.rows[most.row])), 3) +
            " mT at " + mm(bracket.plain.rows[most.row].displacement) + ", at most.\n";
  }
  return text;
}

}  // namespace

std::vector<HardCore> hard_cores(const DeviceFile& file) {
  std::vector<HardCore> cores;
  for (const Core& core : file.device.cores) {
    const std::optional<SoftMaterial>& steel = file.words_of.at(core.name).steel;
    if (steel && steel->coercive_field_A_per_m && !is_linear(core.law))
      cores.push_back({core.name, *steel->coercive_field_A_per_m});
  }
  return cores;
}

Device left_magnetised(const DeviceFile& file, double sign) {
  Device device = file.device;
  device.currents_A = {std::vector<double>(device.circuits.size(), 0.0)};
  for (const HardCore& hard : hard_cores(file))
    for (Core& core : device.cores)
      if (core.name == hard.name) core.shift_A_per_m = sign * hard.coercive_field_A_per_m;
  return device;
}

std::string remanence_text(const RemanenceBracket& bracket) {
  std::string text =
      "Remanence of the cores, as a bracket: each curve shifted by plus and minus its coercive field along "
      "z,\n";
  for (const HardCore& core : bracket.cores)
    text += "  " + core.name + ": " + rounded(core.coercive_field_A_per_m, 4) + " A/m\n";
  return text + "\n" + force_lines(bracket) + sensor_lines(bracket) +
         "The truth lies between: a shifted curve is what a saturated core can keep at most, along z only. "
         "To start from\n"
         "no remanence, drive the coil with a current that alternates and dies away; take a softer steel to "
         "have less.\n";
}

std::string remanence_csv(const RemanenceBracket& bracket) {
  std::string text =
      "displacement_mm,force_N,force_numerical_error_N,force_after_plus_z_N,force_after_minus_z_N";
  for (const std::string& sensor : bracket.plain.sensors)
    text += ",B_z_" + sensor + "_T,B_z_" + sensor + "_after_plus_z_T,B_z_" + sensor + "_after_minus_z_T";
  text += "\r\n";
  for (std::size_t i = 0; i < bracket.plain.rows.size(); ++i) {
    const Measurement* states[] = {&bracket.plain.rows[i], &bracket.towards_plus.rows[i],
                                   &bracket.towards_minus.rows[i]};
    text += shortest(in_mm(states[0]->displacement)) + "," + shortest(states[0]->force_N.value) + "," +
            shortest(states[0]->force_N.error) + "," + shortest(states[1]->force_N.value) + "," +
            shortest(states[2]->force_N.value);
    for (std::size_t k = 0; k < bracket.plain.sensors.size(); ++k)
      for (const Measurement* state : states)
        text += "," + shortest(k < state->sensors.size() ? state->sensors[k].bz_T : std::nan(""));
    text += "\r\n";
  }
  return text;
}

}  // namespace coilpull
