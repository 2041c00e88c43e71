// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/field_picture.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/axes.hpp"
#include "apps/output/field_map.hpp"
#include "apps/output/flux_lines.hpp"
#include "apps/output/number_text.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double widest = 700, left = 70, top = 66, right_margin = 110;
constexpr int lines_wanted = 40;
constexpr double pixels_per_point = 1.5;

/// The parts and as much air around them as shows how the flux returns, within the half circle of the mesh.
Box window_of(const FieldSample& sample, const Device& device, double displacement) {
  const Box box = box_around(drawn_parts(device, displacement));
  const double length = box.z_to - box.z_from;
  const double low = sample.at.row(1).minCoeff(), high = sample.at.row(1).maxCoeff();
  const double centre = (low + high) / 2, radius = (high - low) / 2;
  const auto with_air = [&](double air) { return Box{0, box.r_to + air, box.z_from - air, box.z_to + air}; };
  double air = 0.28 * std::min(box.r_to, length) + 0.06 * std::max(box.r_to, length);
  const double least = 0.3 * air;
  while (air > least) {
    const Box window = with_air(air);
    if (std::hypot(window.r_to, std::max(centre - window.z_from, window.z_to - centre)) < radius) break;
    air *= 0.95;
  }
  return with_air(air);
}

/// A step of psi that gives about so many lines within the window, and reads well as flux.
double flux_step(const FieldSample& sample, const Box& window) {
  double least = 0, most = 0;
  for (Eigen::Index k = 0; k < sample.flux.size(); ++k) {
    const double r = sample.at(0, k), z = sample.at(1, k);
    if (r > window.r_to || z < window.z_from || z > window.z_to) continue;
    least = std::min(least, sample.flux[k]);
    most = std::max(most, sample.flux[k]);
  }
  const std::vector<double> round = ticks({0, 2 * pi * (most - least)}, lines_wanted);
  return round.size() > 1 ? (round[1] - round[0]) / (2 * pi) : 0;
}

std::string flux_words(double weber) {
  if (weber >= 1e-3) return rounded(1e3 * weber, 3) + " mWb";
  return weber >= 1e-6 ? rounded(1e6 * weber, 3) + " uWb" : rounded(1e9 * weber, 3) + " nWb";
}

/// Drops points that lie within a tenth of a point of the line before them, so that files stay small.
Line thinned(const Line& line) {
  Line thin;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (thin.size() >= 2 && i + 1 < line.size()) {
      const Spot a = thin[thin.size() - 1], b = line[i], c = line[i + 1];
      const double across = std::abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
      if (across < 0.06 * std::hypot(c.x - a.x, c.y - a.y) && std::hypot(b.x - a.x, b.y - a.y) < 6) continue;
    }
    thin.push_back(line[i]);
  }
  return thin;
}

void draw_flux_lines(Canvas& canvas, const FieldSample& sample, double step, const SectionView& view,
                     Halves halves) {
  if (!(step > 0)) return;
  std::vector<Line> lines;
  for (const std::vector<Point>& line : flux_lines(sample, step)) {
    Line upper, lower;
    for (const Point& point : line) {
      upper.push_back(view.spot(point.r, point.z));
      lower.push_back(view.spot(-point.r, point.z));
    }
    lines.push_back(thinned(upper));
    if (halves == Halves::both) lines.push_back(thinned(lower));
  }
  canvas.stroke(lines, {{0.08, 0.09, 0.14, 0.62}, 0.75});
}

void draw_outlines(Canvas& canvas, const Device& device, double displacement, const SectionView& view,
                   Halves halves) {
  for (const DrawnPart& part : drawn_parts(device, displacement))
    for (const bool mirrored : {false, true}) {
      if (mirrored && halves == Halves::upper) break;
      canvas.stroke(surface_on_sheet(view, part.outline, mirrored), {{1, 1, 1, 0.55}, 2.6});
      canvas.stroke(surface_on_sheet(view, part.outline, mirrored), {{0.05, 0.05, 0.08}, 1.2});
    }
}

/// Ticks and numbers in mm outside the area; r counts upwards from the axis on either side.
void draw_mm_axes(Canvas& canvas, const Area& area, const Box& window, const SectionView& view,
                  Halves halves) {
  const Pen mark{look::quiet, 0.8};
  const Range z{1e3 * window.z_from, 1e3 * window.z_to};
  const std::vector<double> along = ticks(z, std::max(3, static_cast<int>((area.x_to - area.x_from) / 75)));
  const std::vector<std::string> words = tick_words(z, along);
  for (std::size_t i = 0; i < along.size(); ++i) {
    const double x = view.spot(0, 1e-3 * along[i]).x;
    canvas.stroke(Line{{x, area.y_to}, {x, area.y_to + 4}}, mark);
    canvas.text({x, area.y_to + 14}, words[i], {look::small_size, look::quiet, 0.5});
  }
  canvas.text({(area.x_from + area.x_to) / 2, area.y_to + 33}, "z (mm)", {look::text_size, look::ink, 0.5});

  const Range r{0, 1e3 * window.r_to};
  const std::vector<double> upward = ticks(r, std::max(1, static_cast<int>(view.scale * window.r_to / 48)));
  const std::vector<std::string> r_words = tick_words(r, upward);
  for (std::size_t i = 0; i < upward.size(); ++i)
    for (const double side : {1.0, -1.0}) {
      if (side < 0 && (halves == Halves::upper || upward[i] == 0)) continue;
      const double y = view.spot(side * 1e-3 * upward[i], 0).y;
      canvas.stroke(Line{{area.x_from - 4, y}, {area.x_from, y}}, mark);
      canvas.text({area.x_from - 8, y}, r_words[i], {look::small_size, look::quiet, 1});
    }
  canvas.text({area.x_from - 44, (area.y_from + area.y_to) / 2}, "r (mm)",
              {look::text_size, look::ink, 0.5, true});
  canvas.stroke(Line{{area.x_from, view.y_of_0}, {area.x_to, view.y_of_0}},
                {{0.2, 0.2, 0.25, 0.7}, 0.7, {10, 3, 2, 3}});
  canvas.outline({{area.x_from, area.y_from},
                  {area.x_to, area.y_from},
                  {area.x_to, area.y_to},
                  {area.x_from, area.y_to}},
                 {look::quiet, 0.8});
}

void draw_colour_scale(Canvas& canvas, const Area& bar, double highest_T) {
  Pixels pixels{1, 256, {}};
  FieldMap ramp{1, 256, {}};
  for (int row = 0; row < ramp.rows; ++row)
    ramp.b_T.push_back(static_cast<float>(highest_T * (ramp.rows - 1 - row) / (ramp.rows - 1)));
  canvas.image(coloured(ramp, highest_T, Halves::upper), bar);
  canvas.outline(
      {{bar.x_from, bar.y_from}, {bar.x_to, bar.y_from}, {bar.x_to, bar.y_to}, {bar.x_from, bar.y_to}},
      {look::quiet, 0.8});
  const bool in_mT = highest_T < 0.2;
  const Range range{0, in_mT ? 1e3 * highest_T : highest_T};
  const std::vector<double> at = ticks(range, std::max(2, static_cast<int>((bar.y_to - bar.y_from) / 36)));
  const std::vector<std::string> words = tick_words(range, at);
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double y = bar.y_to - range.part(at[i]) * (bar.y_to - bar.y_from);
    canvas.stroke(Line{{bar.x_to, y}, {bar.x_to + 4, y}}, {look::quiet, 0.8});
    canvas.text({bar.x_to + 8, y}, words[i], {look::small_size, look::quiet});
  }
  canvas.text({bar.x_from, bar.y_from - 12}, in_mT ? "|B| (mT)" : "|B| (T)", {look::small_size, look::ink});
}

}  // namespace

Canvas draw_field(const FieldSample& sample, const Device& device, double displacement,
                  const std::string& below, Halves halves) {
  const Box window = window_of(sample, device, displacement);
  const double sides = halves == Halves::both ? 2 : 1, tallest = halves == Halves::both ? 520 : 400;
  const double scale = std::min(widest / (window.z_to - window.z_from), tallest / (sides * window.r_to));
  const double length = scale * (window.z_to - window.z_from), half = scale * window.r_to;
  const double sheet = left + std::max(length, 520.0) + right_margin;
  const double x = left + (sheet - left - right_margin - length) / 2;
  const Area area{x, x + length, top + 12, top + 12 + sides * half};
  const SectionView view{scale, x - scale * window.z_from, area.y_from + half};

  const FieldMap map = field_map(sample, window, std::max(2, static_cast<int>(pixels_per_point * length)));
  const double highest = std::max(1e-12, nearly_highest(map)), step = flux_step(sample, window);

  Canvas canvas(sheet, std::max(area.y_to, top + 112) + 50);
  draw_title(canvas, device.title,
             below + (step > 0 ? "; " + flux_words(2 * pi * step) + " between lines" : ""), 20);
  canvas.begin_clip(area);
  canvas.image(coloured(map, highest, halves), area);
  draw_flux_lines(canvas, sample, step, view, halves);
  draw_outlines(canvas, device, displacement, view, halves);
  canvas.end_clip();
  draw_mm_axes(canvas, area, window, view, halves);
  const double bar_height = std::clamp(area.y_to - area.y_from, 100.0, 320.0);
  draw_colour_scale(canvas, {area.x_to + 26, area.x_to + 42, area.y_from + 12, area.y_from + bar_height},
                    highest);
  return canvas;
}

}  // namespace coilpull
