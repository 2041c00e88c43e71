// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

namespace coilpull {

/// How many standard uncertainties to either side hold all of so many parameters together with 95 %, by
/// Bonferroni's inequality: the quantile 1 - 0.025 / parameters of the normal distribution when the noise is
/// known, of Student's t with these degrees of freedom when it was estimated from the residuals. JCGM
/// 100:2008, G.3.
double coverage_factor(std::size_t parameters);
double coverage_factor(std::size_t parameters, double degrees_of_freedom);

/// The sum of squared residuals over sigma that pure noise exceeds once in a hundred times.
double largest_likely_sum(double degrees_of_freedom);

}  // namespace coilpull
