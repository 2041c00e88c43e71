// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "solver/sweep/mesh_origin.hpp"

namespace coilpull {

/// Five displacements of `count`, evenly spread, three of a short table. They are solved first, from coarse
/// meshes on, to learn where the mesh must be fine, and their rows in more ways than the others.
std::vector<std::size_t> anchors_of(std::size_t count);

/// Where every displacement's mesh comes from, all as fine. Anchors and every fourth displacement are meshed;
/// the others are carried from the nearest of these, which spares the mesher and the search for an order of
/// elimination.
std::vector<MeshOrigin> origins_along(const std::vector<double>& displacements,
                                      const std::vector<std::size_t>& anchors,
                                      const std::shared_ptr<const Resolution>& resolution);

}  // namespace coilpull
