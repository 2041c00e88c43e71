// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/output/section_view.hpp"

namespace coilpull {

/// A place of the drawing that is dimensioned.
struct Dimension {
  double value;  ///< [m], the r or z of the place
  Spot from;     ///< where on the sheet its extension line starts
};

/// z of the places as numbers in mm along the lower margin, each with its extension line; equal ones once.
/// The first in the list are kept when not all find room.
void dimension_z(Canvas& canvas, const std::vector<Dimension>& places, double y, const Area& room);

/// r of the places along the right margin.
void dimension_r(Canvas& canvas, const std::vector<Dimension>& places, double x, const Area& room);

/// A name outside the drawing with a line to what it names.
struct Callout {
  std::string words;
  Spot at;
  bool quiet = false;
  bool dot = true;  ///< at the end of its line
};

/// Rows that the callouts take above the drawing.
int callout_rows(const Canvas& canvas, const std::vector<Callout>& callouts, double width);

/// Rows of names from y_lowest upwards, lines down to their places.
void draw_callouts(Canvas& canvas, const std::vector<Callout>& callouts, double x_from, double x_to,
                   double y_lowest);

inline constexpr double callout_row_height = 18;

}  // namespace coilpull
