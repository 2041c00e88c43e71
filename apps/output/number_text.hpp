// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "solver/measure/measurement.hpp"

namespace coilpull {

/// Shortest text that reads back as the same double, whatever the locale; "NaN" for what is not finite.
std::string shortest(double value);

/// The nearest double of at most 15 significant digits: 0.1 for a value that rounding left beside 0.1.
double as_written(double value);

/// Metres in millimetres, as the person wrote them: 0.1, though 1e3 * 1e-4 may miss it by a rounding.
double in_mm(double metres);

std::string rounded(double value,
                    int digits);  ///< to so many significant digits, for reading: "3.21", "1.2e-05"

std::string millimetres(double metres, int digits);  ///< for reading: "12.5 mm"

/// "3.214 +- 0.012", the value to the last place that its bar leaves standing.
std::string with_bar(const Measured& measured);

}  // namespace coilpull
