// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/bench_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/device_text.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"

namespace coilpull {
namespace {

constexpr double newton_per_gram_force = 9.80665e-3;    // standard gravity
constexpr double scale_from_N = 0.05, scale_to_N = 49;  // 5 gf to 5 kgf; common practice, no source

Measured times(Measured value, double factor) {
  return {factor * value.value, std::abs(factor) * value.error};
}

std::string henry(const Measured& inductance) {
  const bool small = std::abs(inductance.value) < 1e-3;
  return with_bar(times(inductance, small ? 1e6 : 1e3)) + (small ? " uH" : " mH");
}

std::string force(const Measured& force_N) {
  if (std::isnan(force_N.value)) return "could not be solved";
  std::string text = with_bar(force_N) + " N, " + with_bar(times(force_N, 1 / newton_per_gram_force)) + " gf";
  const double size = std::abs(force_N.value);
  if (size < scale_from_N) text += " (too little for a kitchen scale)";
  if (size > scale_to_N) text += " (more than a kitchen scale bears)";
  return text;
}

std::string resistance_text(const BenchSheet& sheet) {
  if (sheet.coils.empty()) return "";
  std::string text = "Resistance at 20 degC, of copper with 1/58 ohm mm2/m (IEC 60028)\n";
  for (const CoilOnBench& coil : sheet.coils) {
    text += "  coil " + coil.name + ": ";
    if (coil.resistance_ohm)
      text += rounded(*coil.resistance_ohm, 3) + " ohm (" + rounded(coil.turns, 6) + " turns of " +
              rounded(in_mm(coil.turn_m), 3) + " mm, " + rounded(coil.turns * coil.turn_m, 3) + " m of " +
              rounded(in_mm(*coil.wire_m), 4) + " mm wire)\n";
    else
      text += "not known: the device file names no wire. Add wire = { diameter_mm = ... } to [coil." +
              coil.name + "].\n";
  }
  return text +
         "  How: ohmmeter on the cold winding, less what it reads with its leads held together. 0.39 % more "
         "for each\n"
         "  degree above 20; wire 1 % thinner than nominal reads 2 % more. Fewer ohms than this: turns are "
         "missing.\n\n";
}

std::string inductance_text(const BenchSheet& sheet) {
  if (sheet.circuits.empty()) return "";
  std::string text = "Inductance for small currents\n";
  for (std::size_t k = 0; k < sheet.circuits.size(); ++k) {
    const std::string& name = sheet.circuits[k].name;
    text += "  " + name +
            ", coils alone, cores and magnets taken away: " + henry(sheet.circuits[k].coils_alone_H) + "\n";
    for (const GapOnBench& gap : sheet.gaps)
      text += "  " + name + ", cores and magnets in place, at " + millimetres(gap.displacement, 6) + ": " +
              henry(gap.inductance_H[k]) + "\n";
  }
  return text +
         "  How: inductance meter at 100 Hz or less, other circuits open. Coils alone is the sure reading. "
         "Solid steel\n"
         "  reads less than this: eddy currents shield it, and its minor loops are flatter than the B-H "
         "curve.\n\n";
}

std::string field_text(const BenchSheet& sheet) {
  if (sheet.faces.empty()) return "";
  std::string text = "B_z on the axis of each magnet, alone in air, before assembly\n";
  for (const FaceOnBench& face : sheet.faces)
    text += "  magnet " + face.magnet + ", " + millimetres(face.distance, 6) + " off its " +
            (face.side > 0 ? "+z" : "-z") + " face: " + with_bar(times(face.bz_T, 1e3)) + " mT\n";
  return text +
         "  How: flat field probe on a spacer of paper or plastic; the distance counts from the magnet to "
         "the sensing\n"
         "  spot inside the probe, which its data sheet tells. 0.1 mm matters. All steel half a metre "
         "away.\n\n";
}

std::string pull_text(const BenchSheet& sheet, const Device& device) {
  if (sheet.gaps.empty()) return "";
  std::string text = "Axial force on the moving parts, + towards +z\n";
  for (const GapOnBench& gap : sheet.gaps) {
    text += "  at " + millimetres(gap.displacement, 6) +
            (std::isnan(gap.clearance) ? "" : ", clearance " + millimetres(gap.clearance, 6)) +
            "\n    current off: " + force(gap.off_N) + "\n";
    if (gap.on_N)
      text += "    " + currents_text(device.circuits, sheet.strongest_A) + ": " + force(*gap.on_N) + "\n";
  }
  return text +
         "  How: axis upright, fixed parts clamped, moving parts on a wooden or plastic post on the scale, "
         "100 mm above\n"
         "  its plate (common practice, no source): scales are of steel. Set the displacement with plastic "
         "shims, tare\n"
         "  with the other half far away. With +z upwards a positive force shows as less. Read the "
         "current at the\n"
         "  same moment, in pulses of a second.\n\n";
}

std::string warnings(const Device& device) {
  std::string text;
  for (const std::string& warning : device_warnings(device)) text += "warning: " + warning + "\n";
  return text;
}

}  // namespace

std::string bench_text(const BenchSheet& sheet, const Device& device) {
  std::string text = "Bench sheet of " + device.title +
                     "\nWhat instruments should read when the device is as the file says. Behind +-: the "
                     "numerical bar.\n\n" +
                     resistance_text(sheet) + inductance_text(sheet) + field_text(sheet) +
                     pull_text(sheet, device);
  for (const std::string& trouble : sheet.trouble) text += "Not solved: " + trouble + "\n";
  return text + warnings(device) +
         "Take care: clamp everything before magnets come near steel; they snap together and pinch. Keep "
         "them from\n"
         "pacemakers and cards. A winding at its highest current gets hot within seconds: switch off between "
         "readings.\n"
         "Coils and capacitors keep energy after switch-off. Follow your local codes.\n";
}

std::string bench_csv(const BenchSheet& sheet, const Device& device) {
  std::string text = "quantity,of,where,unit,value,bar\r\n";
  const auto add = [&](const std::string& what, const std::string& of, const std::string& where,
                       const char* unit, double value, const std::string& bar) {
    text += what + "," + of + "," + (where.find(',') == std::string::npos ? where : '"' + where + '"') + "," +
            unit + "," + shortest(as_written(value)) + "," + bar + "\r\n";
  };
  const auto add_measured = [&](const std::string& what, const std::string& of, const std::string& where,
                                const char* unit, const Measured& value) {
    add(what, of, where, unit, value.value, shortest(as_written(value.error)));
  };
  for (const CoilOnBench& coil : sheet.coils)
    if (coil.resistance_ohm) add("resistance", coil.name, "20 degC", "ohm", *coil.resistance_ohm, "");
  for (const CircuitOnBench& circuit : sheet.circuits)
    add_measured("inductance", circuit.name, "coils alone", "H", circuit.coils_alone_H);
  for (const GapOnBench& gap : sheet.gaps)
    for (std::size_t k = 0; k < gap.inductance_H.size(); ++k)
      add_measured("inductance", device.circuits[k], "displacement " + millimetres(gap.displacement, 6), "H",
                   gap.inductance_H[k]);
  for (const FaceOnBench& face : sheet.faces)
    add_measured("B_z", face.magnet,
                 millimetres(face.distance, 6) + (face.side > 0 ? " off the +z face" : " off the -z face"),
                 "T", face.bz_T);
  for (const GapOnBench& gap : sheet.gaps) {
    const auto add_force = [&](const std::string& currents, const Measured& value) {
      const std::string where = "displacement " + millimetres(gap.displacement, 6) + ", " + currents;
      add_measured("force", "moving parts", where, "N", value);
      add_measured("force", "moving parts", where, "gf", times(value, 1 / newton_per_gram_force));
    };
    add_force("current off", gap.off_N);
    if (gap.on_N) add_force(currents_text(device.circuits, sheet.strongest_A), *gap.on_N);
  }
  return text;
}

}  // namespace coilpull
