// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/seeded_draws.hpp"

#include <cmath>
#include <numeric>
#include <utility>

#include "materials/constants.hpp"

namespace coilpull {

double SeededDraws::uniform() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }

double SeededDraws::normal() {
  const double u = 1 - uniform(), v = uniform();  // u > 0
  return std::sqrt(-2 * std::log(u)) * std::cos(2 * pi * v);
}

std::size_t SeededDraws::below(std::size_t count) {
  return static_cast<std::size_t>(uniform() * static_cast<double>(count));
}

std::vector<std::vector<double>> latin_hypercube(std::size_t points, std::size_t directions, unsigned seed) {
  SeededDraws draws(seed);
  std::vector<std::vector<double>> cube(points, std::vector<double>(directions));
  for (std::size_t d = 0; d < directions; ++d) {
    std::vector<std::size_t> part(points);
    std::iota(part.begin(), part.end(), 0u);
    for (std::size_t k = points; k > 1; --k) std::swap(part[k - 1], part[draws.below(k)]);
    for (std::size_t k = 0; k < points; ++k)
      cube[k][d] = (static_cast<double>(part[k]) + draws.uniform()) / static_cast<double>(points);
  }
  return cube;
}

}  // namespace coilpull
