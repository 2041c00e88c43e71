// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/field_map.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace coilpull {
namespace {

/// A corner of a small triangle in pixels: column x, row y downwards, and |B| there.
struct Corner {
  double x, y, b;
};

/// Pixel centres inside the triangle, |B| linear between the corners.
void paint(FieldMap& map, const Corner& p, const Corner& q, const Corner& s) {
  const double area = (q.x - p.x) * (s.y - p.y) - (q.y - p.y) * (s.x - p.x);
  if (area == 0) return;
  const int first_row = std::max(0, static_cast<int>(std::ceil(std::min({p.y, q.y, s.y}) - 0.5)));
  const int last_row = std::min(map.rows - 1, static_cast<int>(std::floor(std::max({p.y, q.y, s.y}) - 0.5)));
  const int first_column = std::max(0, static_cast<int>(std::ceil(std::min({p.x, q.x, s.x}) - 0.5)));
  const int last_column =
      std::min(map.columns - 1, static_cast<int>(std::floor(std::max({p.x, q.x, s.x}) - 0.5)));
  constexpr double rim = -1e-6;  // neighbours overlap by nothing that shows and leave no gap
  for (int row = first_row; row <= last_row; ++row)
    for (int column = first_column; column <= last_column; ++column) {
      const double x = column + 0.5 - p.x, y = row + 0.5 - p.y;
      const double along_q = (x * (s.y - p.y) - y * (s.x - p.x)) / area;
      const double along_s = (y * (q.x - p.x) - x * (q.y - p.y)) / area;
      if (along_q < rim || along_s < rim || along_q + along_s > 1 - rim) continue;
      map.b_T[static_cast<std::size_t>(row) * map.columns + column] =
          static_cast<float>(p.b + along_q * (q.b - p.b) + along_s * (s.b - p.b));
    }
}

constexpr int shades = 1024;

std::vector<unsigned> colour_table() {
  std::vector<unsigned> table(shades + 1);
  const auto byte = [](double part) { return static_cast<unsigned>(std::lround(255 * part)); };
  for (int i = 0; i <= shades; ++i) {
    const Colour colour = on_amount_scale(static_cast<double>(i) / shades);
    table[i] = byte(colour.red) << 16U | byte(colour.green) << 8U | byte(colour.blue);
  }
  return table;
}

}  // namespace

FieldMap field_map(const FieldSample& sample, const Box& window, int columns) {
  const double pixel = (window.z_to - window.z_from) / columns;
  FieldMap map{columns, std::max(1, static_cast<int>(std::lround(window.r_to / pixel))), {}};
  map.b_T.assign(static_cast<std::size_t>(map.columns) * map.rows, std::numeric_limits<float>::quiet_NaN());
  const int n = sample.divisions, points = sample.per_triangle();
  std::vector<Corner> corners(points);
  for (Eigen::Index t = 0; t < sample.triangles(); ++t) {
    Corner least{1e300, 1e300, 0}, most{-1e300, -1e300, 0};
    for (int p = 0; p < points; ++p) {
      const Eigen::Index k = t * points + p;
      const Corner corner{(sample.at(1, k) - window.z_from) / pixel, map.rows - sample.at(0, k) / pixel,
                          sample.b.col(k).norm()};
      least = {std::min(least.x, corner.x), std::min(least.y, corner.y), 0};
      most = {std::max(most.x, corner.x), std::max(most.y, corner.y), 0};
      corners[p] = corner;
    }
    if (most.x < 0 || least.x > map.columns || most.y < 0 || least.y > map.rows) continue;
    const auto at = [&](int i, int j) { return corners[lattice_point(n, i, j)]; };
    for (int j = 0; j < n; ++j)
      for (int i = 0; i + j < n; ++i) {
        paint(map, at(i, j), at(i + 1, j), at(i, j + 1));
        if (i + j + 1 < n) paint(map, at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
      }
  }
  return map;
}

double nearly_highest(const FieldMap& map) {
  std::vector<float> values;
  for (const float b : map.b_T)
    if (std::isfinite(b)) values.push_back(b);
  if (values.empty()) return 0;
  const auto place =
      values.begin() + static_cast<std::ptrdiff_t>(0.995 * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), place, values.end());
  return *place;
}

Pixels coloured(const FieldMap& map, double highest_T, Halves halves) {
  const std::vector<unsigned> table = colour_table();
  Pixels pixels{map.columns, halves == Halves::both ? 2 * map.rows : map.rows, {}};
  pixels.rgb.reserve(static_cast<std::size_t>(pixels.columns) * pixels.rows);
  for (const float b : map.b_T)
    pixels.rgb.push_back(std::isfinite(b)
                             ? table[static_cast<std::size_t>(shades * std::clamp(b / highest_T, 0.0, 1.0))]
                             : table[0]);
  if (halves == Halves::both)
    for (int row = map.rows - 1; row >= 0; --row)
      for (int column = 0; column < map.columns; ++column)
        pixels.rgb.push_back(pixels.rgb[static_cast<std::size_t>(row) * map.columns + column]);
  return pixels;
}

}  // namespace coilpull
