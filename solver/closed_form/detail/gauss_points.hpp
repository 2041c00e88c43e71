// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cmath>

namespace coilpull::detail {

/// Gauss and Legendre's rule of ten points on [-1, 1], from Boost.Math.
struct GaussPoints {
  std::array<double, 10> at, weight;
};
const GaussPoints& gauss_points();

/// Mean of f over [from, to].
template <class F>
auto gauss_mean(double from, double to, const F& f) {
  const double middle = 0.5 * (from + to), half = 0.5 * (to - from);
  const GaussPoints& rule = gauss_points();
  auto sum = (0.5 * rule.weight[0]) * f(middle + half * rule.at[0]);
  for (std::size_t i = 1; i < rule.at.size(); ++i)
    sum += (0.5 * rule.weight[i]) * f(middle + half * rule.at[i]);
  return sum;
}

/// Where an integrand is singular: at + i off in the complex plane; off = 0: on the real axis.
struct Singularity {
  double at, off;
};

/// int f dx over [from, to], the interval halved until each piece of it is at least 2.5 times its half width
/// away from every singularity, where ten points leave 1e-13, or is narrower than `narrowest`.
/// A singularity within the interval must be given as its end.
template <std::size_t N, class F>
auto graded_integral(double from, double to, const std::array<Singularity, N>& singular, double narrowest,
                     const F& f) {
  const double middle = 0.5 * (from + to), half = 0.5 * (to - from);
  bool smooth = true;
  for (const Singularity& s : singular) smooth = smooth && std::hypot(s.at - middle, s.off) >= 2.5 * half;
  if (smooth || 2 * half < narrowest) return (2 * half) * gauss_mean(from, to, f);
  auto sum = graded_integral(from, middle, singular, narrowest, f);
  sum += graded_integral(middle, to, singular, narrowest, f);
  return sum;
}

}  // namespace coilpull::detail
