// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/drawing/part_list.hpp"

#include <cmath>

#include "apps/output/number_text.hpp"
#include "apps/winding/winding_sheet.hpp"

namespace coilpull {
namespace {

std::string mm(double metres) { return rounded(in_mm(metres), 5); }

/// "⌀14 x 28 mm, bore ⌀11", of a profile the box around it.
std::string size_text(const Outline& outline) {
  const Box box = bounding_box(outline);
  const double box_area = (box.r_to - box.r_from) * (box.z_to - box.z_from);
  const bool plain = std::abs(area(outline) - box_area) < 1e-9 * box_area;
  return "\u2300" + mm(2 * box.r_to) + " x " + mm(box.z_to - box.z_from) + " mm" +
         (box.r_from > 0 ? ", bore \u2300" + mm(2 * box.r_from) : "") + (plain ? "" : ", profile as drawn");
}

PartLine wire_line(const Coil& coil, double spare) {
  PartLine line{coil.name, "winding, " + rounded(coil.turns, 6) + " turns", "no wire given",
                size_text(coil.outline)};
  if (const auto sheet = winding_sheet(coil)) {
    line.material = "\u2300" + mm(coil.wire->bare_diameter) + " mm " + word_for(coil.wire->metal) +
                    ", \u2300" + mm(coil.wire->overall_diameter) + " insulated";
    line.size = rounded(sheet->wire_m * (1 + spare), 3) + " m of wire, " + rounded(100 * spare, 3) +
                " % spare in it; " + rounded(sheet->resistance_20_ohm, 3) + " ohm at 20 \u00b0C";
  }
  return line;
}

}  // namespace

std::optional<Outline> bobbin_outline(const Coil& coil) {
  if (!coil.bobbin || !(coil.bobbin->wall > 0)) return std::nullopt;
  const Box box = bounding_box(coil.bobbin->space);
  const double inner = box.r_from + coil.bobbin->wall, flange = coil.bobbin->flange;
  if (!(flange > 0)) return rectangle(box.r_from, inner, box.z_from, box.z_to);
  const std::vector<Point> corners = {
      {box.r_from, box.z_from},     {box.r_to, box.z_from},     {box.r_to, box.z_from + flange},
      {inner, box.z_from + flange}, {inner, box.z_to - flange}, {box.r_to, box.z_to - flange},
      {box.r_to, box.z_to},         {box.r_from, box.z_to}};
  Outline outline;
  for (std::size_t k = 0; k < corners.size(); ++k)
    outline.edges.push_back({corners[k], corners[(k + 1) % corners.size()]});
  return outline;
}

std::vector<PartLine> part_list(const Device& device, double spare) {
  std::vector<PartLine> lines;
  const auto moves = [&](const std::string& name) {
    return std::string(is_moving(device, name) ? ", moves" : "");
  };
  for (const Core& core : device.cores)
    lines.push_back({core.name, "core" + moves(core.name), core.material, size_text(core.outline)});
  for (const Magnet& magnet : device.magnets)
    lines.push_back({magnet.name, "magnet" + moves(magnet.name), magnet.material, size_text(magnet.outline)});
  for (const Coil& coil : device.coils) {
    if (const auto bobbin = bobbin_outline(coil))
      lines.push_back({coil.name, "bobbin", "not magnetic", size_text(*bobbin)});
    lines.push_back(wire_line(coil, spare));
  }
  return lines;
}

}  // namespace coilpull
