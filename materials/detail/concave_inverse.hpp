// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull::detail {

struct ValueAndSlope {
  double value;
  double slope;  ///< > 0
};

/// x >= 0 with f(x) = target, for f increasing and concave; f(x) returns ValueAndSlope.
/// Newton from a lower bound of x: the tangent of a concave curve lies above it, so every step stays below
/// the solution and moves towards it. Near it the relative error is squared (times |x f''/(2 f')|, at most
/// about 1 for magnetization curves), so that after a step of 1e-8 only rounding is left.
template <class Curve>
double concave_inverse(const Curve& f, double target, double lower_bound) {
  constexpr int max_steps = 100;         // two to six are usual
  constexpr double step_is_last = 1e-8;  // done when step <= step_is_last * x
  double x = lower_bound;
  for (int i = 0; i < max_steps; ++i) {
    const ValueAndSlope at = f(x);
    const double step = (target - at.value) / at.slope;
    x += step;
    if (!(step > step_is_last * x)) break;
  }
  return x;
}

}  // namespace coilpull::detail
