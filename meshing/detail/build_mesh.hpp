// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>

#include "meshing/detail/edge_mesh.hpp"
#include "meshing/detail/protocol.hpp"
#include "meshing/mesh.hpp"

namespace coilpull::detail {

/// What is wrong with a reply, and where.
struct UnusableMesh : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// What the generator is to fill.
MeshRequest request_for(const PlanarMap& map, const EdgeMesh& edges);

/// Nothing of the reply is believed: every face has triangles, all turn counter-clockwise (exact), every
/// inner edge has one triangle on each side, every edge of `edges` is there with the right faces beside it,
/// areas add up, and no triangle is worse than quality_above. Neighbouring nodes get near numbers.
/// @throws UnusableMesh
Mesh build_mesh(const Section& section, const PlanarMap& map, const EdgeMesh& edges, const MeshReply& reply,
                double quality_above);

}  // namespace coilpull::detail
