// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "meshing/mesh.hpp"
#include "solver/device/roles.hpp"

namespace coilpull {

/// The mesh of another displacement with the same triangles: carried parts are shifted along z, held ones and
/// the half circle stand still, and a node of the air at the distances a from what is carried and h from what
/// stands goes the part g of the way,
///     g = 1 for s < 0.3,   0 for s > 0.7,   linear between,   s = a / (a + h),
/// so that what is close to a corner keeps its shape.
/// @param roles  one per region of the mesh
/// @param shift  along z [m]
/// @return nothing when a triangle would lose more than half of its shape, 4 sqrt(3) area / sum of its
/// squared
///         sides
std::optional<Mesh> carried_mesh(const Mesh& mesh, const std::vector<Role>& roles, double shift);

}  // namespace coilpull
