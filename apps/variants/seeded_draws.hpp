// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <random>
#include <vector>

namespace coilpull {

/// Random numbers that a seed fixes on every machine: the engine is that of the C++ standard (its 10000th
/// number is part of it), what is made of it is ours, since the distributions of the library may differ.
class SeededDraws {
public:
  explicit SeededDraws(unsigned seed) : engine_(seed) {}
  double uniform();  ///< in [0, 1): 53 bits
  double normal();   ///< mean 0, deviation 1: G. E. P. Box, M. E. Muller, Ann. Math. Stat. 29 (1958) 610
  std::size_t below(std::size_t count);  ///< a whole number in 0 ... count - 1

private:
  std::mt19937_64 engine_;
};

/// Points that fill a cube of so many directions evenly: each direction is cut into as many equal parts as
/// there are points, and each part holds one. M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21
/// (1979) 239.
/// @return  (points) x (directions), each in [0, 1)
std::vector<std::vector<double>> latin_hypercube(std::size_t points, std::size_t directions, unsigned seed);

}  // namespace coilpull
