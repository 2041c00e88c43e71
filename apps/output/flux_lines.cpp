// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/flux_lines.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <unordered_map>

namespace coilpull {
namespace {

struct Segment {
  Point a, b;
};

/// Calls f(i, j, k) with the points of every small triangle of the lattice.
template <class F>
void for_each_small_triangle(const FieldSample& sample, F f) {
  const int n = sample.divisions;
  for (Eigen::Index t = 0; t < sample.triangles(); ++t) {
    const Eigen::Index first = t * sample.per_triangle();
    const auto at = [&](int i, int j) { return first + lattice_point(n, i, j); };
    for (int j = 0; j < n; ++j)
      for (int i = 0; i + j < n; ++i) {
        f(at(i, j), at(i + 1, j), at(i, j + 1));
        if (i + j + 1 < n) f(at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
      }
  }
}

/// The stretch of the level in one small triangle, psi linear there.
bool crossing(const FieldSample& sample, const std::array<Eigen::Index, 3>& corner, double level,
              Segment& segment) {
  Point found[2];
  int count = 0;
  for (int e = 0; e < 3 && count < 2; ++e) {
    Eigen::Index from = corner[e], to = corner[(e + 1) % 3];
    if ((sample.flux[from] > level) == (sample.flux[to] > level)) continue;
    const double t = (level - sample.flux[from]) / (sample.flux[to] - sample.flux[from]);
    found[count++] = {sample.at(0, from) + t * (sample.at(0, to) - sample.at(0, from)),
                      sample.at(1, from) + t * (sample.at(1, to) - sample.at(1, from))};
  }
  segment = {found[0], found[1]};
  return count == 2;
}

/// Segments that meet, up to rounding, strung together.
class Stringing {
public:
  Stringing(std::vector<Segment> segments, double grid) : segments_(std::move(segments)), grid_(grid) {
    for (std::size_t i = 0; i < segments_.size(); ++i) {
      at_.emplace(key(segments_[i].a), i);
      at_.emplace(key(segments_[i].b), i);
    }
    used_.assign(segments_.size(), false);
  }

  std::vector<std::vector<Point>> lines() {
    std::vector<std::vector<Point>> all;
    for (std::size_t i = 0; i < segments_.size(); ++i) {
      if (used_[i]) continue;
      used_[i] = true;
      std::vector<Point> line = {segments_[i].a, segments_[i].b};
      extend(line);
      std::reverse(line.begin(), line.end());
      extend(line);
      all.push_back(std::move(line));
    }
    return all;
  }

private:
  std::uint64_t key(Point p) const {
    const auto r = static_cast<std::int64_t>(std::llround(p.r / grid_));
    const auto z = static_cast<std::int64_t>(std::llround(p.z / grid_));
    return static_cast<std::uint64_t>(r) * 0x9E3779B97F4A7C15ULL + static_cast<std::uint64_t>(z);
  }

  void extend(std::vector<Point>& line) {
    for (bool grown = true; grown;) {
      grown = false;
      const auto [first, last] = at_.equal_range(key(line.back()));
      for (auto next = first; next != last && !grown; ++next) {
        const std::size_t i = next->second;
        if (used_[i]) continue;
        used_[i] = grown = true;
        line.push_back(key(segments_[i].a) == key(line.back()) ? segments_[i].b : segments_[i].a);
      }
    }
  }

  std::vector<Segment> segments_;
  double grid_;
  std::unordered_multimap<std::uint64_t, std::size_t> at_;
  std::vector<bool> used_;
};

}  // namespace

std::vector<std::vector<Point>> flux_lines(const FieldSample& sample, double step) {
  std::unordered_map<std::int64_t, std::vector<Segment>> of_level;
  for_each_small_triangle(sample, [&](Eigen::Index i, Eigen::Index j, Eigen::Index k) {
    const auto [least, most] = std::minmax({sample.flux[i], sample.flux[j], sample.flux[k]});
    const auto last = static_cast<std::int64_t>(std::floor(most / step - 0.5));
    for (auto n = static_cast<std::int64_t>(std::ceil(least / step - 0.5)); n <= last; ++n) {
      Segment segment;
      if (crossing(sample, {i, j, k}, (static_cast<double>(n) + 0.5) * step, segment))
        of_level[n].push_back(segment);
    }
  });
  const double size = sample.at.size() > 0 ? sample.at.cwiseAbs().maxCoeff() : 1;
  std::vector<std::vector<Point>> all;
  for (auto& [level, segments] : of_level) {
    Stringing stringing(std::move(segments), 1e-8 * size);
    for (auto& line : stringing.lines()) all.push_back(std::move(line));
  }
  return all;
}

}  // namespace coilpull
