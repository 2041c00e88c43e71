// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/read_motion.hpp"

#include <algorithm>

#include "apps/device_file/keys.hpp"
#include "apps/device_file/nearest_name.hpp"

namespace coilpull {

namespace {

std::vector<std::string> read_moving(const Value& moving, const std::vector<std::string>& parts) {
  std::vector<std::string> names;
  for (const std::string& name : text_list(moving)) {
    if (std::find(parts.begin(), parts.end(), name) == parts.end())
      refuse(moving.place, "there is no part \"" + name + "\".", did_you_mean(name, parts));
    if (std::find(names.begin(), names.end(), name) != names.end())
      refuse(moving.place, "names \"" + name + "\" twice.");
    names.push_back(name);
  }
  if (names.empty()) refuse(moving.place, "names no part.", "Leave out [motion] when nothing moves.");
  return names;
}

}  // namespace

std::vector<std::string> part_names(const Device& device) {
  std::vector<std::string> names;
  for (const Core& core : device.cores) names.push_back(core.name);
  for (const Coil& coil : device.coils) names.push_back(coil.name);
  for (const Magnet& magnet : device.magnets) names.push_back(magnet.name);
  return names;
}

void read_motion(const Table& root, Device& device) {
  device.displacements = {0};
  const auto found = root.find("motion");
  if (!found) return;
  const std::string example = "moving = [\"plunger\"]";
  const Table table = section(*found, root.text(), example);
  const Value moving = table.need("moving", "Name the parts that move together, for example " + example);
  device.moving = read_moving(moving, part_names(device));
  if (const auto displacements = find_lengths_m(table, "displacement")) {
    refuse_repeated(*displacements);
    device.displacements = displacements->si;
  }
  table.refuse_unread_keys();
}

}  // namespace coilpull
