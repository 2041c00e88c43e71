// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

namespace coilpull {

/// A sheet of the A series, lying: ISO 216.
struct Paper {
  const char* name;
  double width_mm, height_mm;
};

/// Margins inside which is drawn: 20 mm at the left for filing, 10 mm else (ISO 5457).
inline constexpr double filing_margin_mm = 20, margin_mm = 10;

struct Extent {
  double width_mm, height_mm;
};

/// A paper and how large things are drawn on it: 1 to `reduction`, of ISO 5455 (1, 2, 5, 10, 20, 50, ...).
struct PaperChoice {
  Paper paper;
  int reduction;
  std::string scale_words() const { return "1:" + std::to_string(reduction); }
};

/// Natural size on the smallest of A4 to A0 that holds it; what no A0 holds is reduced.
/// @param extent_of  what the drawing takes at a reduction, without the margins
/// @throws std::invalid_argument  what is larger than A0 at 1:1000
PaperChoice choose_paper(const std::function<Extent(int reduction)>& extent_of);

}  // namespace coilpull
