// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "meshing/mesh.hpp"

namespace coilpull {

/// Parts of a mesh gathered into bodies: parts that share a node belong together, since no air lies between
/// them in which a force on one alone could be taken. Names in the order of the mesh.
std::vector<std::vector<std::string>> bodies_of(const Mesh& mesh);

/// "post" or "post+plate".
std::string body_name(const std::vector<std::string>& parts);

}  // namespace coilpull
