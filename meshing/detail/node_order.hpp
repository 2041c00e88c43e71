// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "meshing/point.hpp"

namespace coilpull::detail {

struct NodeOrder {
  std::vector<int> number;     ///< new number of each node, -1: in no triangle
  int used;                    ///< how many are in some triangle
  std::vector<int> triangles;  ///< old triangle numbers in the new order, by their lowest node
};

/// Numbers neighbours near each other: breadth first from the lowest node on, as Cuthill and McKee do (Proc.
/// 24th ACM National Conf. (1969) 157), without their sorting by degree. Depends on the mesh only.
NodeOrder order_nodes(const std::vector<std::array<int, 3>>& triangles, const std::vector<Point>& points);

}  // namespace coilpull::detail
