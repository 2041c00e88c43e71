// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/offset_text.hpp"

#include <cmath>
#include <tuple>

#include "apps/output/csv_rows.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/padded.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double far_off = 0.05;  ///< of the full solution: beyond, the steel is called too full

std::string row(const std::string& what, const Measured& axis, const Measured& here) {
  return "  " + padded(what, 44) + padded(with_bar(axis), 24) + with_bar(here) + "\n";
}

std::string place_text(const OffsetQuestion& question) {
  std::string text = shortest(as_written(1e3 * question.offset)) + " mm " +
                     (question.pair_distance ? "from half way between two equal coils whose axes stand " +
                                                   shortest(as_written(1e3 * *question.pair_distance)) +
                                                   " mm apart,\ntowards the second"
                                             : std::string("beside the axis, towards x"));
  return text + ", tilted " + shortest(as_written(question.tilt * 180 / pi)) + " degrees, +z end towards x";
}

std::string reciprocity_text(const OffsetPoint& point, const OnAxis& full) {
  const double by_charge = point.on_axis.value.axial_N, solved = full.current_part_N.value;
  std::string text =
      "Held against the full solution on the axis, where half of what reversing the current changes is\n" +
      with_bar(full.current_part_N) + " N: ";
  const double apart = std::abs(by_charge - solved);
  if (apart <= full.current_part_N.error + point.on_axis.bar.axial_N)
    return text + "the same within the bars.\n";
  const double part = apart / std::abs(solved);
  text += "off by " + rounded(apart, 2) + " N, " + rounded(100 * part, 2) + " %.";
  return text +
         (part > far_off
              ? "\nThe magnet and the current together fill the steel: take the force here as a sketch.\n"
              : "\nSo much must be allowed for here too: what the steel adds to the magnetisation, and its "
                "filling.\n");
}

std::string each_text(const OffsetPoint& point) {
  if (point.each.size() != 2) return "";
  const auto both = [&](double OffsetForce::*what) {
    const auto one = [&](const OffsetAnswer& coil) { return with_bar({coil.value.*what, coil.bar.*what}); };
    return one(point.each[0]) + " and " + one(point.each[1]) + " N";
  };
  return "The first and the second coil alone: along z " + both(&OffsetForce::axial_N) +
         ", which add;\nto the side " + both(&OffsetForce::side_N) +
         ", which cancel half way between them.\n\n";
}

std::string steel_text(const Device& device, const OffsetQuestion& question, const OnAxis& full) {
  if (device.cores.empty()) return "";
  if (question.pair_distance)
    return "Not known: what the steel of both coils does to the magnet without current, and to each other's "
           "field.\n";
  std::string text =
      "Estimate of what the steel does without current, along z: " + with_bar(full.without_current_N) +
      " N, its value on the axis;\nit changes only with the squares of offset and tilt.\n"
      "Not known: the pull of the steel to the side, and its torque.";
  const double stiffness = -full.slope_without_N_per_m / 2;  // N per m of offset
  if (question.tilt == 0 && stiffness > 0 && question.offset != 0)
    text += " The pull to the side is at least " + rounded(stiffness * std::abs(question.offset), 2) +
            " N away from the axis near it:\nno place is stable both ways (steel far from full).";
  return text + "\n";
}

}  // namespace

std::string offset_text(const Device& device, const OffsetQuestion& question, const OffsetPoint& point,
                        const OnAxis& full) {
  const OffsetAnswer &axis = point.on_axis, &here = point.here;
  std::string text = "The magnets stand " + place_text(question) + ".\n\n  " +
                     padded("what the current alone does", 44) + padded("on the axis", 24) +
                     (question.pair_distance ? "here, both coils\n" : "here\n");
  text +=
      row("force along z, N", {axis.value.axial_N, axis.bar.axial_N}, {here.value.axial_N, here.bar.axial_N});
  text += row("force to the side, N (+: farther out)", {0, 0}, {here.value.side_N, here.bar.side_N});
  text +=
      row("torque, mN m (+: tilts farther)", {0, 0}, {1e3 * here.value.torque_Nm, 1e3 * here.bar.torque_Nm});
  text += "\n" + each_text(point) + reciprocity_text(point, full) + steel_text(device, question, full);
  return text +
         R"(By magnetic charge on a rigid magnet in the field of coil and core without it: exact for steel far from full and
recoil permeability 1 (above 1 the magnet is weakened by its own field). Bars are numerical only. Magnets off their
axis are drawn to a wall: mind fingers and guides.
)";
}

std::string offset_csv(const OffsetPoint& point) {
  std::vector<std::vector<double>> rows;
  for (const OffsetStep& step : point.way) {
    const OffsetForce &value = step.answer.value, &bar = step.answer.bar;
    rows.push_back({in_mm(step.offset), as_written(step.tilt * 180 / pi), value.axial_N, bar.axial_N,
                    value.side_N, bar.side_N, value.torque_Nm, bar.torque_Nm});
  }
  return csv_rows(
      "offset_mm,tilt_deg,current_force_z_N,current_force_z_numerical_error_N,current_force_side_N,"
      "current_force_side_numerical_error_N,current_torque_Nm,current_torque_numerical_error_Nm",
      rows);
}

CurvesPicture offset_picture(const OffsetQuestion& question, const OffsetPoint& point,
                             const std::string& title) {
  const bool by_offset = question.offset != 0;
  CurvesPicture picture;
  picture.title = title;
  picture.below = std::string("what the current alone does to a magnet ") +
                  (question.pair_distance ? "beside half way between two coils" : "beside the axis") +
                  (by_offset && question.tilt != 0 ? ", tilted in proportion" : "");
  picture.x_words = by_offset ? "offset (mm)" : "tilt (degrees)";
  picture.y_words = "force (N)";
  picture.foot =
      "side +: drawn farther out; bands: numerical error bars; what the steel does by itself is not in it";
  for (const auto& [what, label, side] : {std::tuple{&OffsetForce::axial_N, "along z", 1.0},
                                          std::tuple{&OffsetForce::side_N, "to the side", -1.0}}) {
    Curve curve{label, on_signed_scale(side), {}};
    for (const OffsetStep& step : point.way)
      curve.points.push_back({by_offset ? in_mm(step.offset) : step.tilt * 180 / pi, step.answer.value.*what,
                              step.answer.bar.*what});
    picture.curves.push_back(curve);
  }
  return picture;
}

}  // namespace coilpull
