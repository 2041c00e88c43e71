// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/device_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/device_file/winding_fit.hpp"
#include "apps/output/number_text.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

/// Continuous current density above which a coil in still air runs hot [A/m^2]; common practice, no source.
constexpr double warm_current_density = 10e6;
/// Share of a winding's section that round wire fills at best, insulation included: pi / (2 sqrt 3).
constexpr double densest_packing = 0.9069;

std::string drawn_mm(double metres) { return rounded(in_mm(metres), 6); }
std::string range(double from, double to) { return drawn_mm(from) + " to " + drawn_mm(to); }

bool is_rectangle(const Outline& outline) {
  const Box box = bounding_box(outline);
  const double box_area = (box.r_to - box.r_from) * (box.z_to - box.z_from);
  return std::abs(area(outline) - box_area) < 1e-9 * box_area;
}

std::string shape_text(const Outline& outline) {
  const Box box = bounding_box(outline);
  const std::string kind = !is_rectangle(outline) ? "profile" : box.r_from == 0 ? "cylinder" : "tube";
  return kind + ", r " + range(box.r_from, box.r_to) + ", z " + range(box.z_from, box.z_to) + " mm, " +
         rounded(1e6 * volume(outline), 4) + " cm3";
}

std::string part_head(const Device& device, const std::string& kind, const std::string& name,
                      const Outline& outline) {
  return "  " + kind + " " + name + (is_moving(device, name) ? " (moves): " : ": ") + shape_text(outline) +
         "\n";
}

std::string direction(const MagnetLaw& law) {
  if (law.remanence_r_T == 0) return law.remanence_z_T < 0 ? "along -z" : "along +z";
  if (law.remanence_z_T == 0) return law.remanence_r_T < 0 ? "along -r" : "along +r";
  const double angle = std::atan2(law.remanence_r_T, law.remanence_z_T) * 180 / pi;
  return "at " + rounded(angle, 4) + " degrees from +z towards +r";
}

std::string magnetisation(const MagnetLaw& law) {
  return "remanence " + rounded(std::hypot(law.remanence_r_T, law.remanence_z_T), 4) + " T " +
         direction(law) + ", recoil permeability " + rounded(law.recoil_permeability, 4);
}

std::string knee_text(const Magnet& magnet) {
  return " at " + rounded(magnet.temperature_degC, 4) + " degC; " +
         (magnet.knee_T ? "knee at B = " + rounded(*magnet.knee_T, 3) + " T" : "its knee is not known");
}

double copper_fill(const Coil& coil) {
  const double d = coil.wire->bare_diameter;
  return coil.turns * pi * d * d / 4 / area(coil.outline);
}

std::string wire_text(const Coil& coil) {
  if (!coil.wire) return "no wire given, fit not checked";
  std::string text = "wire " + drawn_mm(coil.wire->bare_diameter) + " mm (" +
                     drawn_mm(coil.wire->overall_diameter) + " mm over the insulation), " +
                     word_for(coil.wire->metal) + " fills " + rounded(100 * copper_fill(coil), 3) + " %";
  if (is_rectangle(coil.outline))
    text += "; room for " + rounded(turns_in_rows(window_of(coil), coil.wire->overall_diameter), 6) +
            " turns in straight rows, " +
            rounded(turns_nested(window_of(coil), coil.wire->overall_diameter), 6) + " nested";
  return text;
}

std::string parts_text(const Device& device) {
  std::string text = "Parts:\n";
  for (const Core& core : device.cores)
    text += part_head(device, "core", core.name, core.outline) + "    " + core.material + "\n";
  for (const Coil& coil : device.coils)
    text += part_head(device, "coil", coil.name, coil.outline) + "    " + rounded(coil.turns, 6) +
            " turns in circuit " + coil.circuit + (coil.sense < 0 ? ", wound in reverse" : "") + "; " +
            wire_text(coil) + "\n";
  for (const Magnet& magnet : device.magnets)
    text += part_head(device, "magnet", magnet.name, magnet.outline) + "    " + magnet.material + ": " +
            magnetisation(magnet.law) + knee_text(magnet) + "\n";
  for (const Sensor& sensor : device.sensors)
    text +=
        "  sensor " + sensor.name + (sensor.moves ? " (moves)" : "") + ": r " + drawn_mm(sensor.at.r) +
        ", z " + drawn_mm(sensor.at.z) + " mm" +
        (sensor.face_radius > 0 ? ", mean over a radius of " + drawn_mm(sensor.face_radius) + " mm" : "") +
        "\n";
  return text;
}

std::string points_text(const Device& device) {
  const auto [first, last] = std::minmax_element(device.displacements.begin(), device.displacements.end());
  std::string text = "Points: " + std::to_string(device.displacements.size()) + " displacements, " +
                     range(*first, *last) + " mm; " + std::to_string(device.currents_A.size()) +
                     " sets of currents";
  for (std::size_t i = 0; i < device.circuits.size(); ++i) {
    const auto by_current = [i](const auto& a, const auto& b) { return a[i] < b[i]; };
    const auto [least, most] =
        std::minmax_element(device.currents_A.begin(), device.currents_A.end(), by_current);
    text +=
        ", " + device.circuits[i] + " " + rounded((*least)[i], 6) + " to " + rounded((*most)[i], 6) + " A";
  }
  text += "; " + std::to_string(device.displacements.size() * device.currents_A.size()) + " rows\n";
  if (device.background_bz_T != 0)
    text += "Background field: " + rounded(device.background_bz_T, 6) + " T along +z\n";
  return text + "Tolerance: " + rounded(100 * device.tolerance, 3) + " % of the largest force\n";
}

double largest_current(const Device& device, const Coil& coil) {
  const auto circuit = std::find(device.circuits.begin(), device.circuits.end(), coil.circuit);
  double largest = 0;
  if (circuit != device.circuits.end())
    for (const std::vector<double>& currents : device.currents_A)
      largest =
          std::max(largest, std::abs(currents[static_cast<std::size_t>(circuit - device.circuits.begin())]));
  return largest;
}

void add_coil_warnings(const Device& device, const Coil& coil, std::vector<std::string>& warnings) {
  const double current = largest_current(device, coil);
  const double copper = coil.wire ? copper_fill(coil) : densest_packing;
  const double density = coil.turns * current / (copper * area(coil.outline));
  if (density > warm_current_density)
    warnings.push_back("coil " + coil.name + ": " + rounded(current, 4) + " A is " +
                       (coil.wire ? "" : "at least ") + rounded(density * 1e-6, 3) +
                       " A/mm2 in the wire; fine for a pulse, too hot to hold.");
  if (coil.wire && is_rectangle(coil.outline) &&
      turns_in_rows(window_of(coil), coil.wire->overall_diameter) < coil.turns)
    warnings.push_back("coil " + coil.name + ": " + rounded(coil.turns, 6) +
                       " turns fit only when each layer nests in the one below.");
}

}  // namespace

std::string device_text(const Device& device) {
  return device.title + "\n\n" + parts_text(device) + points_text(device);
}

std::vector<std::string> device_warnings(const Device& device) {
  std::vector<std::string> warnings;
  for (const Coil& coil : device.coils) add_coil_warnings(device, coil, warnings);
  if (device.magnets.empty() && device.coils.empty())
    warnings.push_back("no coil and no magnet: only the background field can pull.");
  if (device.moving.empty()) warnings.push_back("nothing moves: there is no force to compute.");
  return warnings;
}

std::string warning_lines(const Device& device) {
  std::string text;
  for (const std::string& warning : device_warnings(device)) text += "warning: " + warning + "\n";
  return text;
}

}  // namespace coilpull
