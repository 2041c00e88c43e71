// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/mesh_generator_version.hpp"

namespace coilpull {

std::string mesh_generator_version() { return COILPULL_GMSH_VERSION; }

}  // namespace coilpull
