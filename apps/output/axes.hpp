// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/output/canvas.hpp"

namespace coilpull {

/// The look that all pictures share.
namespace look {
inline constexpr Colour ink = {0.15, 0.15, 0.17};
inline constexpr Colour quiet = {0.42, 0.42, 0.45};
inline constexpr Colour faint = {0.88, 0.88, 0.89};
inline constexpr double title_size = 15, text_size = 12.5, small_size = 11;
}  // namespace look

/// One direction of a diagram.
struct Range {
  double from, to;
  bool logarithmic = false;         ///< from > 0
  double part(double value) const;  ///< 0 at from, 1 at to
};

/// The smallest range around the values, given a little air; never empty. Values that are not finite are
/// skipped.
Range range_of(const std::vector<double>& values);

/// Steps of 1, 2 or 5 times a power of ten, about `wanted` of them, all inside the range; logarithmic:
/// decades.
std::vector<double> ticks(const Range& range, int wanted);

/// Numbers of an axis as short as the steps between them allow; ASCII. "-0" does not occur.
std::vector<std::string> tick_words(const Range& range, const std::vector<double>& ticks);

/// A diagram's field with its two axes: where data falls on the sheet.
struct Axes {
  Area area;
  Range x, y;
  std::string x_words, y_words;  ///< what is drawn along them, with the unit

  Spot spot(double x_value, double y_value) const;
};

/// Grid, numbers and words. What is drawn later covers the grid.
void draw_axes(Canvas& canvas, const Axes& axes);

/// Title and, below it, a quieter second line; shortened to the width of the sheet.
void draw_title(Canvas& canvas, const std::string& title, const std::string& below, double x_from);

}  // namespace coilpull
