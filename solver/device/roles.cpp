// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/roles.hpp"

#include <algorithm>

#include "meshing/section.hpp"

namespace coilpull {

std::vector<Role> roles_for(const std::vector<std::string>& body,
                            const std::vector<std::string>& region_names) {
  std::vector<Role> roles;
  for (const std::string& name : region_names) {
    const bool carried = std::find(body.begin(), body.end(), name) != body.end();
    roles.push_back(name == air_name ? Role::free : carried ? Role::carried : Role::held);
  }
  return roles;
}

}  // namespace coilpull
