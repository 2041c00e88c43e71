// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/device/section_at.hpp"

namespace coilpull {

/// How the mesh of a displacement came about, enough to make it again: how fine it is, and where it was made.
/// When that is another displacement, its triangles were carried along, see carried_mesh.hpp.
struct MeshOrigin {
  std::shared_ptr<const Resolution> resolution;  ///< shared by all meshes that are as fine
  double made_at;                                ///< displacement [m]
};

inline bool operator==(const MeshOrigin& a, const MeshOrigin& b) {
  return a.resolution == b.resolution && a.made_at == b.made_at;
}

}  // namespace coilpull
