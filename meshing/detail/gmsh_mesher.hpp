// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/detail/protocol.hpp"

namespace coilpull::detail {

/// Gmsh, started with the object and stopped with it. For the worker's process only: Gmsh has global state,
/// may abort or hang, and takes long to load. Does not throw for a bad mesh: see MeshReply::trouble.
class GmshMesher {
public:
  GmshMesher();
  ~GmshMesher();
  GmshMesher(const GmshMesher&) = delete;
  GmshMesher& operator=(const GmshMesher&) = delete;

  MeshReply mesh(const MeshRequest& request);
};

}  // namespace coilpull::detail
