// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <random>

namespace coilpull {

/// The same numbers from the same seed on every machine: own arithmetic on std::mt19937_64, no distributions.
class Dice {
public:
  explicit Dice(unsigned seed) : random_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(random_() >> 11) * 0x1p-53);
  }
  double log_between(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
  bool chance(double share) { return between(0, 1) < share; }
  int one_of(int count) { return static_cast<int>(between(0, count)); }

private:
  std::mt19937_64 random_;
};

}  // namespace coilpull
