// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <doctest/doctest.h>

namespace coilpull {

/// Relative, and only relative: doctest's own Approx adds 1 to the magnitude and so accepts nearly anything
/// that is small in SI units. Nothing is near 0: there, compare with ==.
inline doctest::Approx near(double expected, double relative) {
  return doctest::Approx(expected).epsilon(relative).scale(0);
}

}  // namespace coilpull
