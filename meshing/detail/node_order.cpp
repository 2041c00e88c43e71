// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/node_order.hpp"

#include <algorithm>
#include <numeric>

namespace coilpull::detail {

NodeOrder order_nodes(const std::vector<std::array<int, 3>>& triangles, const std::vector<Point>& points) {
  const std::size_t n = points.size();
  std::vector<int> start(n + 1, 0);  // triangles around each node, one row after the other
  for (const auto& t : triangles)
    for (const int node : t) ++start[node + 1];
  std::partial_sum(start.begin(), start.end(), start.begin());
  std::vector<int> around(3 * triangles.size()), fill(start.begin(), start.end() - 1);
  for (std::size_t i = 0; i < triangles.size(); ++i)
    for (const int node : triangles[i]) around[fill[node]++] = static_cast<int>(i);

  NodeOrder order = {std::vector<int>(n, -1), 0, std::vector<int>(triangles.size())};
  std::vector<int> lowest_first(n);
  std::iota(lowest_first.begin(), lowest_first.end(), 0);
  std::stable_sort(lowest_first.begin(), lowest_first.end(),
                   [&](int a, int b) { return points[a].z < points[b].z; });
  std::vector<int> queue;
  const auto enter = [&](int node) {
    if (order.number[node] >= 0) return;
    order.number[node] = order.used++;
    queue.push_back(node);
  };
  std::size_t next = 0;
  for (const int seed : lowest_first) {
    if (start[seed] == start[seed + 1]) continue;
    enter(seed);
    for (; next < queue.size(); ++next)
      for (int i = start[queue[next]]; i < start[queue[next] + 1]; ++i)
        for (const int node : triangles[around[i]]) enter(node);
  }

  std::iota(order.triangles.begin(), order.triangles.end(), 0);
  const auto lowest = [&](int t) {
    return std::min(
        {order.number[triangles[t][0]], order.number[triangles[t][1]], order.number[triangles[t][2]]});
  };
  std::stable_sort(order.triangles.begin(), order.triangles.end(),
                   [&](int a, int b) { return lowest(a) < lowest(b); });
  return order;
}

}  // namespace coilpull::detail
