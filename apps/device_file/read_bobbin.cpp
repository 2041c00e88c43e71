// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_bobbin.hpp"

#include <cmath>

#include "apps/device_file/keys.hpp"

namespace coilpull {

namespace {

const char* const example = "{ wall_mm = 1, flange_mm = 1.5, clearance_mm = 0.3, layer_film_mm = 0.05 }";

double thickness(const Table& table, const std::string& stem) {
  const auto found = find_length_m(table, stem);
  if (!found) return 0;
  if (found->si < 0) refuse(found->value.place, "has to be 0 or more.");
  return found->si;
}

}  // namespace

void read_bobbin(const Table& coil_table, Coil& coil) {
  const auto value = coil_table.find("bobbin");
  if (!value) return;
  const Table table = inline_table(*value, coil_table.text(), example);
  const Bobbin bobbin{coil.outline, thickness(table, "wall"), thickness(table, "flange"),
                      thickness(table, "clearance"), thickness(table, "layer_film")};
  table.refuse_unread_keys();
  const Box box = bounding_box(coil.outline);
  const double box_area = (box.r_to - box.r_from) * (box.z_to - box.z_from);
  if (std::abs(area(coil.outline) - box_area) > 1e-9 * box_area)
    refuse(value->place, "is only known for a coil drawn as a tube.", "Draw the winding itself instead.");
  const Box left{box.r_from + bobbin.wall, box.r_to - bobbin.clearance, box.z_from + bobbin.flange,
                 box.z_to - bobbin.flange};
  if (!(left.r_from < left.r_to && left.z_from < left.z_to))
    refuse(value->place, "nothing of the drawn space is left for the turns.",
           "The tube is drawn from the inside of the bobbin's wall to the outside of the coil, flanges "
           "included.");
  coil.outline = rectangle(left.r_from, left.r_to, left.z_from, left.z_to);
  coil.bobbin = bobbin;
}

Packing read_packing(const Table& coil_table) {
  const auto value = coil_table.find("packing");
  if (!value) return Packing::nested;
  const std::string words = text(*value);
  if (words == "rows") return Packing::rows;
  if (words == "nested") return Packing::nested;
  refuse(value->place, "there is no such packing.",
         "Allowed: \"rows\", turn over turn, and \"nested\", each layer in the grooves of the one before.");
}

double read_winding_temperature(const Table& coil_table) {
  const auto value = coil_table.find("temperature_degC");
  if (!value) return 20;
  const double degC = number(*value);
  if (!(degC >= -100 && degC <= 250))
    refuse(value->place, "has to lie between -100 and 250.", "Enamel is lost above.");
  return degC;
}

}  // namespace coilpull
