// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/detail/edge_mesh.hpp"
#include "meshing/mesh_section.hpp"

namespace coilpull::detail {

struct CutDrawing {
  EdgeMesh edges;
  SizeField sizes;  ///< for the triangles between them
};

/// Cuts the curves for the sizes asked for, and for less where the drawing is finer than these: edges along a
/// narrow gap or a thin wall get short enough for triangles of the quality asked for to span it, and the
/// triangles beside an edge that the drawing makes short grow from its length.
CutDrawing cut_edges(const PlanarMap& map, const SizeField& sizes, const MesherOptions& options);

}  // namespace coilpull::detail
