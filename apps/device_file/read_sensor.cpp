// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_sensor.hpp"

#include <algorithm>

#include "apps/device_file/keys.hpp"
#include "apps/device_file/nearest_name.hpp"
#include "apps/device_file/read_motion.hpp"

namespace coilpull {
namespace {

/// moves_with = "plunger": any one of the moving parts, since they move together
bool read_moves_with(const Table& table, const Device& device) {
  const auto with = table.find("moves_with");
  if (!with) return false;
  const std::string part = text(*with);
  const std::vector<std::string>& moving = device.moving;
  if (std::find(moving.begin(), moving.end(), part) != moving.end()) return true;
  if (moving.empty())
    refuse(with->place, "nothing moves in this device.", "Name the moving parts in [motion].");
  const std::vector<std::string> parts = part_names(device);
  if (std::find(parts.begin(), parts.end(), part) != parts.end())
    refuse(with->place, "this part does not move.", "Moving are: " + listed(moving) + ".");
  refuse(with->place, "there is no such part.", did_you_mean(part, moving));
}

}  // namespace

Sensor read_sensor(const std::string& name, const Table& table, const Device& device) {
  const std::string advice = "A sensor needs its place, for example r_mm = 16 and z_mm = 10";
  const Quantity r = length_m(table, "r", advice);
  const Quantity z = length_m(table, "z", advice);
  if (r.si < 0) refuse(r.value.place, "r counts outwards from the axis and is never negative.");
  const auto face = find_radius_m(table, "face_");
  if (face && !(face->si > 0))
    refuse(face->value.place, "has to be greater than 0.", "A sensor without a face measures at a point.");
  const bool moves = read_moves_with(table, device);
  return {name, {r.si, z.si}, face ? face->si : 0, moves};
}

}  // namespace coilpull
