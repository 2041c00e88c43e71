// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "meshing/point.hpp"

namespace coilpull {

/// A mesh edge that lies on an arc of the drawing; its triangles are to be curved along it.
struct ArcEdge {
  int a;         ///< node number
  int b;         ///< node number
  Point centre;  ///< of the arc [m]
};

/// Triangulated r-z half plane. The axis is r = 0, exactly; no node lies at r < 0.
struct Mesh {
  Eigen::Matrix2Xd nodes;                 ///< (2, n_nodes), column = (r, z) [m]
  Eigen::Matrix3Xi triangles;             ///< (3, n_triangles), corner numbers, counter-clockwise
  Eigen::VectorXi region_of;              ///< (n_triangles), index into region_names
  std::vector<std::string> region_names;  ///< the parts in the order of the section, then "air"
  std::vector<ArcEdge> arcs;              ///< every edge on an arc, the outer half circle included
  Eigen::Matrix2Xi outer_edges;  ///< (2, n), the edges on the outer half circle; none: natural boundary
  double outer_centre_z = 0;     ///< [m]
  double outer_radius = 0;       ///< [m]
};

}  // namespace coilpull
