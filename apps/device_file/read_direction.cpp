// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_direction.hpp"

#include <cmath>

#include "apps/device_file/exact_text.hpp"
#include "materials/constants.hpp"

namespace coilpull {

Direction direction_at(double angle_deg) {
  const double angle = std::remainder(angle_deg, 360);
  if (std::fabs(angle) == 180) return {0, -1};
  if (std::fabs(angle) == 90) return {angle / 90, 0};
  if (angle == 0) return {0, 1};
  return {std::sin(angle * pi / 180), std::cos(angle * pi / 180), angle};
}

std::string as_toml(const Direction& direction) {
  if (direction.r == 0) return direction.z > 0 ? "\"+z\"" : "\"-z\"";
  if (direction.z == 0) return direction.r > 0 ? "\"+r\"" : "\"-r\"";
  return "{ angle_deg = " + toml_number(direction.angle_deg) + " }";
}

Direction read_direction(const Value& value, const SourceText& source) {
  const std::string allowed =
      "Allowed: \"+z\", \"-z\", \"+r\", \"-r\", or { angle_deg = 30 } from +z towards +r.";
  if (value.node->is_table()) {
    const Table table = inline_table(value, source, "{ angle_deg = 30 }");
    const double angle_deg = number(table.need("angle_deg", allowed));
    table.refuse_unread_keys();
    return direction_at(angle_deg);
  }
  if (!value.node->is_string()) refuse(value.place, "is no direction.", allowed);
  const std::string word = text(value);
  if (word == "+z") return {0, 1};
  if (word == "-z") return {0, -1};
  if (word == "+r") return {1, 0};
  if (word == "-r") return {-1, 0};
  refuse(value.place, "is no direction.", allowed);
}

}  // namespace coilpull
