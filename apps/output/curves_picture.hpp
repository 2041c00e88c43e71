// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/output/canvas.hpp"

namespace coilpull {

struct CurvePoint {
  double x, y;           ///< NaN in y: the curve has a hole
  double bar = 0;        ///< half width of the error bar, in the unit of y
  bool crossed = false;  ///< crossed out: computed, and not to be believed
};

/// A spot on a curve worth finding again.
struct CurveMark {
  double x, y;
  bool filled;
  double x_bar = 0;  ///< half width of what is known of its x
};

struct Curve {
  std::string label;
  Colour colour;
  std::vector<CurvePoint> points;  ///< by rising x
  std::vector<CurveMark> marks = {};
  bool dots = false;       ///< the points themselves are shown
  bool band_only = false;  ///< only the band of its bars, paler: no line, no label
  bool dashed = false;     ///< a second opinion on the curve before it: no band, no label
};

struct CurvesPicture {
  std::string title, below;
  std::string x_words, y_words;
  std::string labels_head = {};  ///< stands above the labels
  std::string foot = {};         ///< how the marks are to be read; empty: nothing
  std::vector<Curve> curves = {};
  bool x_logarithmic = false;
};

/// Curves with bands for their bars, each named at its right end.
Canvas draw(const CurvesPicture& picture);

}  // namespace coilpull
