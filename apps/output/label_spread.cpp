// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/label_spread.hpp"

#include <algorithm>
#include <numeric>

namespace coilpull {
namespace {

/// Neighbours that touch and move together.
struct Group {
  double sum;    ///< of wished starts, each less its offset within the group
  double size;   ///< room of all
  double count;  ///< labels
  double start(double from, double to) const { return std::max(from, std::min(sum / count, to - size)); }
};

}  // namespace

std::vector<double> spread(const std::vector<double>& wishes, const std::vector<double>& sizes, double from,
                           double to) {
  std::vector<std::size_t> order(wishes.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return wishes[a] < wishes[b]; });

  std::vector<Group> groups;
  for (const std::size_t i : order) {
    groups.push_back({wishes[i] - sizes[i] / 2, sizes[i], 1});
    while (groups.size() > 1) {  // pool adjacent violators
      const Group last = groups.back();
      Group& before = groups[groups.size() - 2];
      if (before.start(from, to) + before.size <= last.start(from, to)) break;
      before.sum += last.sum - last.count * before.size;
      before.size += last.size;
      before.count += last.count;
      groups.pop_back();
    }
  }

  std::vector<double> places(wishes.size());
  std::size_t k = 0;
  for (const Group& group : groups) {
    double at = group.start(from, to);
    for (int i = 0; i < static_cast<int>(group.count); ++i, ++k) {
      places[order[k]] = at + sizes[order[k]] / 2;
      at += sizes[order[k]];
    }
  }
  return places;
}

}  // namespace coilpull
