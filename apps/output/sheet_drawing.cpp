// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sheet_drawing.hpp"

#include <algorithm>

#include "apps/drawing/part_list.hpp"
#include "apps/output/axes.hpp"
#include "apps/output/device_picture.hpp"

namespace coilpull {
namespace {

constexpr double point = 72 / 25.4;  ///< points per mm
constexpr double row = 15, bar_height = 46;

/// What is drawn in scale: the device, then each bobbin with its winding.
std::vector<Canvas> views_of(const Device& device, int reduction) {
  const double scale = 1000 * point / reduction;
  std::vector<Canvas> views;
  views.push_back(draw_device(device, Halves::both, scale));
  for (const Coil& coil : device.coils)
    if (const auto outline = bobbin_outline(coil)) {
      Device alone;
      alone.title = "Bobbin of " + coil.name;
      alone.cores.push_back({"bobbin", *outline, LinearLaw{1}, {}});
      alone.coils.push_back(coil);
      alone.circuits = {coil.circuit};
      views.push_back(draw_device(alone, Halves::both, scale));
    }
  return views;
}

/// Views side by side as far as the width goes, then in the next row: upper left corners, and the height
/// taken.
struct Placing {
  std::vector<Spot> corners;
  double width = 0, height = 0;
};

Placing placed(const std::vector<Canvas>& views, double width) {
  Placing placing;
  double x = 0, y = 0, tallest = 0;
  for (const Canvas& view : views) {
    if (x > 0 && x + view.width() > width) x = 0, y += tallest, tallest = 0;
    placing.corners.push_back({x, y});
    x += view.width();
    tallest = std::max(tallest, view.height());
    placing.width = std::max(placing.width, x);
  }
  placing.height = y + tallest;
  return placing;
}

double list_height(const std::vector<PartLine>& parts) {
  return row * (static_cast<double>(parts.size()) + 1) + 8;
}

void draw_list(Canvas& canvas, const std::vector<PartLine>& parts, const Area& area) {
  const double width = area.x_to - area.x_from;
  const double columns[] = {0, 0.12, 0.27, 0.56, 1};
  const auto write = [&](double y, const PartLine& line, bool bold) {
    const std::string* words[] = {&line.name, &line.what, &line.material, &line.size};
    for (std::size_t k = 0; k < 4; ++k) {
      const double room = (columns[k + 1] - columns[k]) * width - 8;
      canvas.text({area.x_from + 4 + columns[k] * width, y + row / 2},
                  canvas.shortened(*words[k], room, look::small_size, bold),
                  {look::small_size, look::ink, 0, false, bold});
    }
    canvas.stroke(Line{{area.x_from, y + row}, {area.x_to, y + row}}, {look::faint, 0.6});
  };
  double y = area.y_from;
  write(y, {"part", "what", "material", "size"}, true);
  for (const PartLine& line : parts) write(y += row, line, false);
}

/// 100 mm on paper at any scale, a tick each 10 mm.
void draw_bar(Canvas& canvas, Spot from, const std::string& words) {
  const double length = 100 * point;
  const Pen pen{look::ink, 0.8};
  canvas.stroke(Line{from, {from.x + length, from.y}}, pen);
  for (int k = 0; k <= 10; ++k) {
    const double x = from.x + 10 * point * k, height = k % 5 == 0 ? 9 : 5;
    canvas.stroke(Line{{x, from.y}, {x, from.y - height}}, pen);
  }
  canvas.text({from.x, from.y + 10}, "0", {look::small_size, look::ink, 0.5});
  canvas.text({from.x + length, from.y + 10}, "100 mm", {look::small_size, look::ink, 0.5});
  canvas.text({from.x + length + 30, from.y - 4}, words, {look::small_size, look::quiet});
}

}  // namespace

Sheet draw_sheet(const Device& device, double spare) {
  const std::vector<PartLine> parts = part_list(device, spare);
  const double below = list_height(parts) + bar_height;
  const PaperChoice choice = choose_paper([&](int reduction) {
    // as wide as the widest view, or as the paper that is just wide enough: tried from small to large
    const std::vector<Canvas> views = views_of(device, reduction);
    double widest = 0;
    for (const Canvas& view : views) widest = std::max(widest, view.width());
    const Placing placing = placed(views, std::max(widest, 267 * point));
    return Extent{placing.width / point, (placing.height + below) / point};
  });
  const double width = choice.paper.width_mm * point, height = choice.paper.height_mm * point;
  Canvas canvas(width, height);
  const Area frame{filing_margin_mm * point, width - margin_mm * point, margin_mm * point,
                   height - margin_mm * point};
  const std::vector<Canvas> views = views_of(device, choice.reduction);
  const Placing placing = placed(views, frame.x_to - frame.x_from);
  for (std::size_t k = 0; k < views.size(); ++k)
    canvas.place(views[k], {frame.x_from + placing.corners[k].x, frame.y_from + placing.corners[k].y});
  canvas.outline({{frame.x_from, frame.y_from},
                  {frame.x_to, frame.y_from},
                  {frame.x_to, frame.y_to},
                  {frame.x_from, frame.y_to}},
                 {look::ink, 1});
  const double list_from = frame.y_to - below;
  canvas.stroke(Line{{frame.x_from, list_from}, {frame.x_to, list_from}}, {look::ink, 0.6});
  draw_list(canvas, parts, {frame.x_from, frame.x_to, list_from + 2, frame.y_to - bar_height});
  draw_bar(canvas, {frame.x_from + 20, frame.y_to - 20},
           "Scale " + choice.scale_words() + " on " + choice.paper.name +
               ". Print at 100 %, unfitted; then lay a ruler on this bar.");
  return {std::move(canvas), choice};
}

}  // namespace coilpull
