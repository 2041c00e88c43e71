// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/output/axes.hpp"
#include "apps/output/html_writer.hpp"

namespace coilpull {

/// A figure of the page as SVG elements: letters stay letters, and the style sheet colours every class for
/// light, dark and paper. Spots are in points of the drawing, y downwards.
class SvgSheet {
public:
  /// Opens figure and svg; `title` stands above it and is what a screen reader says.
  SvgSheet(HtmlWriter& page, const std::string& title, double width, double height);
  void line(const Line& spots, const std::string& kind);
  void disc(Spot centre, const std::string& kind);
  void text(Spot at, const std::string& words, const std::string& kind);
  void upward_text(Spot at, const std::string& words, const std::string& kind);
  void axes(const Axes& axes);  ///< grid, numbers and words
  void end(const std::string& caption);

private:
  HtmlWriter& page_;
};

}  // namespace coilpull
