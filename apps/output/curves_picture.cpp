// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/curves_picture.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/axes.hpp"
#include "apps/output/label_spread.hpp"

namespace coilpull {
namespace {

constexpr double width = 860, height = 540, label_step = 17;

bool drawable(const CurvesPicture& picture, const CurvePoint& point) {
  return std::isfinite(point.y) && (!picture.x_logarithmic || point.x > 0);
}

/// Stretches of a curve between its holes.
std::vector<std::vector<CurvePoint>> pieces(const CurvesPicture& picture, const Curve& curve) {
  std::vector<std::vector<CurvePoint>> all(1);
  for (const CurvePoint& point : curve.points)
    if (drawable(picture, point))
      all.back().push_back(point);
    else if (!all.back().empty())
      all.emplace_back();
  if (all.back().empty()) all.pop_back();
  return all;
}

double bar_of(const CurvePoint& point) { return std::isfinite(point.bar) ? point.bar : 0; }

/// To be seen on a line of the colour itself.
Colour half_dark(const Colour& colour) {
  return {0.5 * colour.red, 0.5 * colour.green, 0.5 * colour.blue, colour.cover};
}

void draw_curve(Canvas& canvas, const CurvesPicture& picture, const Axes& axes, const Curve& curve) {
  for (const std::vector<CurvePoint>& piece : pieces(picture, curve)) {
    Line line, band;
    for (const CurvePoint& point : piece) {
      line.push_back(axes.spot(point.x, point.y));
      band.push_back(axes.spot(point.x, point.y + bar_of(point)));
    }
    for (auto point = piece.rbegin(); point != piece.rend(); ++point)
      band.push_back(axes.spot(point->x, point->y - bar_of(*point)));
    if (!curve.dashed) canvas.fill(band, covering(curve.colour, curve.band_only ? 0.18 : 0.28));
    if (curve.band_only) continue;
    canvas.stroke(line, curve.dashed ? Pen{half_dark(curve.colour), 1.4, {5, 4}} : Pen{curve.colour, 1.8});
    if (curve.dots || piece.size() == 1)
      for (const Spot& spot : line) canvas.disc(spot, 2.6, curve.colour);
  }
}

void draw_crosses(Canvas& canvas, const CurvesPicture& picture, const Axes& axes, const Curve& curve) {
  const Pen pen{half_dark(curve.colour), 1.2};
  for (const CurvePoint& point : curve.points) {
    if (!point.crossed || !drawable(picture, point)) continue;
    const Spot at = axes.spot(point.x, point.y);
    canvas.stroke(Line{{at.x - 3, at.y - 3}, {at.x + 3, at.y + 3}}, pen);
    canvas.stroke(Line{{at.x - 3, at.y + 3}, {at.x + 3, at.y - 3}}, pen);
  }
}

/// Where the mark may lie: a line through it with feet, which stand out of the dot from its rim on.
void draw_bar(Canvas& canvas, const Axes& axes, const CurveMark& mark, Colour colour) {
  constexpr double foot = 8;
  const Spot low = axes.spot(mark.x - mark.x_bar, mark.y), high = axes.spot(mark.x + mark.x_bar, mark.y);
  canvas.stroke(Line{low, high}, {colour, 1.5});
  for (const Spot end : {low, high})
    canvas.stroke(Line{{end.x, end.y - foot}, {end.x, end.y + foot}}, {colour, 1.5});
}

void draw_marks(Canvas& canvas, const Axes& axes, const Curve& curve) {
  for (const CurveMark& mark : curve.marks) {
    const Spot at = axes.spot(mark.x, mark.y);
    if (mark.x_bar > 0) draw_bar(canvas, axes, mark, curve.colour);
    canvas.disc(at, 4.6, mark.filled ? curve.colour : Colour{1, 1, 1});
    canvas.ring(at, 4.6, {mark.filled ? Colour{1, 1, 1} : curve.colour, 1.5});
  }
}

/// The right end of every curve that has one.
struct End {
  const Curve* curve;
  Spot at;
};

std::vector<End> ends_of(const CurvesPicture& picture, const Axes& axes) {
  std::vector<End> ends;
  for (const Curve& curve : picture.curves) {
    if (curve.dashed || curve.band_only) continue;
    const auto last = std::find_if(curve.points.rbegin(), curve.points.rend(),
                                   [&](const CurvePoint& point) { return drawable(picture, point); });
    if (last != curve.points.rend()) ends.push_back({&curve, axes.spot(last->x, last->y)});
  }
  return ends;
}

void draw_labels(Canvas& canvas, const CurvesPicture& picture, const Axes& axes) {
  const std::vector<End> ends = ends_of(picture, axes);
  std::vector<double> wishes;
  wishes.reserve(ends.size());
  for (const End& end : ends) wishes.push_back(end.at.y);
  const std::vector<double> places =
      spread(wishes, std::vector<double>(ends.size(), label_step), axes.area.y_from, axes.area.y_to + 8);
  const double x = axes.area.x_to, room = canvas.width() - x - 44;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    const Colour& colour = ends[i].curve->colour;
    const double reach = ends[i].at.x;
    canvas.stroke(Line{{reach + 3, ends[i].at.y},
                       {std::max(x, reach) + 6, ends[i].at.y},
                       {std::max(x, reach) + 24, places[i]},
                       {std::max(x, reach) + 30, places[i]}},
                  {covering(colour, 0.55), 0.8});
    canvas.text({x + 34, places[i]}, canvas.shortened(ends[i].curve->label, room, look::small_size),
                {look::small_size, look::ink});
  }
  if (ends.empty() || picture.labels_head.empty()) return;
  const double top = *std::min_element(places.begin(), places.end());
  canvas.text({x + 34, top - label_step - 2},
              canvas.shortened(picture.labels_head, room, look::small_size, true),
              {look::small_size, look::quiet, 0, false, true});
}

double label_room(const Canvas& canvas, const CurvesPicture& picture) {
  double widest = canvas.text_length(picture.labels_head, look::small_size, true);
  for (const Curve& curve : picture.curves)
    if (!curve.band_only) widest = std::max(widest, canvas.text_length(curve.label, look::small_size));
  return std::clamp(widest + 54, 70.0, 300.0);
}

Axes axes_for(const Canvas& canvas, const CurvesPicture& picture) {
  std::vector<double> x, y;
  for (const Curve& curve : picture.curves)
    for (const CurvePoint& point : curve.points) {
      if (!drawable(picture, point)) continue;
      x.push_back(point.x);
      y.insert(y.end(), {point.y - bar_of(point), point.y + bar_of(point)});
    }
  const Area area{84, width - label_room(canvas, picture), 70, height - (picture.foot.empty() ? 52 : 74)};
  Axes axes{area, range_of(x), range_of(y), picture.x_words, picture.y_words};
  if (picture.x_logarithmic && !x.empty())
    axes.x = {*std::min_element(x.begin(), x.end()), *std::max_element(x.begin(), x.end()), true};
  else if (!x.empty() && axes.x.to - axes.x.from > 0)  // curves reach from edge to edge
    if (const auto [least, most] = std::minmax_element(x.begin(), x.end()); *least < *most)
      axes.x = {*least, *most};
  return axes;
}

}  // namespace

Canvas draw(const CurvesPicture& picture) {
  Canvas canvas(width, height);
  const Axes axes = axes_for(canvas, picture);
  draw_title(canvas, picture.title, picture.below, 20);
  draw_axes(canvas, axes);
  for (const Curve& curve : picture.curves) draw_curve(canvas, picture, axes, curve);
  for (const Curve& curve : picture.curves) draw_crosses(canvas, picture, axes, curve);
  for (const Curve& curve : picture.curves) draw_marks(canvas, axes, curve);
  draw_labels(canvas, picture, axes);
  if (!picture.foot.empty())
    canvas.text({20, height - 16}, canvas.shortened(picture.foot, width - 36, look::small_size),
                {look::small_size, look::quiet});
  return canvas;
}

}  // namespace coilpull
