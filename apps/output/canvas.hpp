// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "apps/output/colour.hpp"

namespace coilpull {

/// A spot of a picture in points, from its upper left corner, y downwards.
struct Spot {
  double x, y;
};

using Line = std::vector<Spot>;

struct Pen {
  Colour colour;
  double width = 1;
  std::vector<double> dashes = {};  ///< lengths of stroke, gap, stroke, ...; empty: unbroken
};

/// A rectangle of a picture; x_from < x_to, y_from < y_to (downwards).
struct Area {
  double x_from, x_to, y_from, y_to;
};

struct Lettering {
  double size = 12;
  Colour colour = {0.15, 0.15, 0.17};
  double anchor = 0;    ///< which part of the text's length lies at the spot: 0 its start, 0.5 middle, 1 end
  bool upward = false;  ///< turned a quarter, reads from below to above
  bool bold = false;
  bool halo = false;  ///< on a white rim, to be read over lines
};

/// Pixels of a map, row after row from the top.
struct Pixels {
  int columns = 0, rows = 0;
  std::vector<unsigned> rgb;  ///< (rows * columns), 0xRRGGBB
};

/// A white sheet on which things are drawn once and written as PNG, SVG and PDF. Text may hold anything: what
/// is no UTF-8 reads "?". Without fonts on the machine it is drawn in plain strokes. The only user of the
/// drawing library.
class Canvas {
public:
  Canvas(double width, double height);
  ~Canvas();
  Canvas(Canvas&&) noexcept;

  double width() const { return width_; }
  double height() const { return height_; }

  void stroke(const Line& line, const Pen& pen);
  void stroke(const std::vector<Line>& lines, const Pen& pen);  ///< covers what they cross only once
  void outline(const Line& corners, const Pen& pen);            ///< closed
  void fill(const Line& corners, const Colour& colour);
  void disc(Spot centre, double radius, const Colour& colour);
  void ring(Spot centre, double radius, const Pen& pen);
  void image(const Pixels& pixels, const Area& area);

  void place(const Canvas& drawing, Spot corner);  ///< another sheet, its upper left corner at the spot

  /// The middle of the letters' height lies at the spot.
  void text(Spot at, const std::string& words, const Lettering& lettering = {});
  double text_length(const std::string& words, double size, bool bold = false) const;
  /// The words, or as many as fit with "..." behind them.
  std::string shortened(const std::string& words, double length, double size, bool bold = false) const;

  /// What is drawn from here on shows only inside the area, until end_clip().
  void begin_clip(const Area& area);
  void end_clip();

  /// The whole file as bytes. @throws std::runtime_error  when memory runs out
  std::string png(double scale = 2) const;
  Pixels pixels(double scale) const;
  std::string svg(const std::string& title) const;  ///< letters as shapes: looks the same everywhere
  std::string pdf(const std::string& title) const;  ///< one page of that many points, 72 an inch

private:
  struct Sheet;
  double width_, height_;
  std::unique_ptr<Sheet> sheet_;
};

}  // namespace coilpull
