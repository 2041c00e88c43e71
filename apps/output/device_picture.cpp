// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/device_picture.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/axes.hpp"
#include "apps/output/margin_notes.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/part_marks.hpp"

namespace coilpull {
namespace {

constexpr double widest = 780, narrowest = 540, left = 60, right_margin = 120, title_height = 62;

double drawn_displacement(const Device& device) {
  if (device.displacements.empty()) return 0;
  return *std::min_element(device.displacements.begin(), device.displacements.end(),
                           [](double a, double b) { return std::abs(a) < std::abs(b); });
}

/// Ends of the stroke at which the moving parts are not drawn already.
std::vector<double> ghost_displacements(const Device& device) {
  std::vector<double> ends;
  if (device.displacements.empty() || device.moving.empty()) return ends;
  const auto [least, most] = std::minmax_element(device.displacements.begin(), device.displacements.end());
  for (const double end : {*least, *most})
    if (end != drawn_displacement(device) && (ends.empty() || ends.back() != end)) ends.push_back(end);
  return ends;
}

Box box_of_all(const Device& device) {
  Box all = box_around(drawn_parts(device, drawn_displacement(device)));
  const auto include = [&](const Box& box) {
    all = {0, std::max(all.r_to, box.r_to), std::min(all.z_from, box.z_from), std::max(all.z_to, box.z_to)};
  };
  for (const double end : ghost_displacements(device)) include(box_around(drawn_parts(device, end)));
  for (const Sensor& sensor : device.sensors)
    include({0, sensor.at.r + sensor.face_radius, sensor.at.z, sensor.at.z});
  return all;
}

/// Where everything goes on a sheet whose height fits the device.
struct Layout {
  Box box;
  double scale, below_axis;  ///< points per metre; 1 or 0: how much of the radius lies below the axis
  Layout(const Device& device, Halves halves, std::optional<double> points_per_metre)
      : box(box_of_all(device)) {
    below_axis = halves == Halves::both ? 1 : 0;
    const double tallest = halves == Halves::both ? 460 : 320;
    scale = points_per_metre.value_or(
        std::min(widest / (box.z_to - box.z_from), tallest / ((1 + below_axis) * box.r_to)));
  }
  double half_height() const { return scale * box.r_to; }
  double length() const { return scale * (box.z_to - box.z_from); }
  double sheet_width() const { return left + std::max(narrowest, length()) + right_margin; }
  double x_from() const { return left + (sheet_width() - left - right_margin - length()) / 2; }
  double x_to() const { return x_from() + length(); }
  double names_to() const { return x_to() + 48; }
  SectionView view(double top) const { return {scale, x_from() - scale * box.z_from, top + half_height()}; }
};

/// Boxes first: they are what one measures; then all corners of the outlines.
void collect_dimensions(const std::vector<DrawnPart>& parts, const SectionView& view, Halves halves,
                        std::vector<Dimension>& along_z, std::vector<Dimension>& along_r) {
  const auto add = [&](double r, double z, double r_low) {
    along_z.push_back({z, view.spot(halves == Halves::both ? -r : r_low, z)});
    along_r.push_back({r, view.spot(r, z)});
  };
  for (const DrawnPart& part : parts) {
    const Box box = bounding_box(part.outline);
    add(box.r_to, box.z_from, box.r_from);
    add(box.r_to, box.z_to, box.r_from);
    if (box.r_from > 0) along_r.push_back({box.r_from, view.spot(box.r_from, box.z_to)});
  }
  for (const DrawnPart& part : parts)
    for (const Edge& edge : part.outline.edges)
      if (edge.from.r > 0) add(edge.from.r, edge.from.z, edge.from.r);
}

void draw_axis(Canvas& canvas, const Layout& layout, const SectionView& view) {
  const double from = layout.x_from() - 22, to = layout.x_to() + 26, y = view.y_of_0;
  canvas.stroke(Line{{from, y}, {to, y}}, {look::quiet, 0.8, {10, 3, 2, 3}});
  canvas.fill({{to + 8, y}, {to, y - 3}, {to, y + 3}}, look::quiet);
  canvas.text({to + 16, y}, "z", {look::text_size, look::quiet});
}

/// Dashed outlines; "at 50 mm" in the largest of them that has room for it.
void draw_ghosts(Canvas& canvas, const Device& device, const SectionView& view, Halves halves,
                 std::vector<Callout>& callouts) {
  const Pen dashed{{0.3, 0.3, 0.33}, 0.9, {4, 3}};
  for (const double end : ghost_displacements(device)) {
    std::vector<DrawnPart> moving;
    for (const DrawnPart& part : drawn_parts(device, end))
      if (part.moves) moving.push_back(part);
    for (const DrawnPart& part : moving) {
      canvas.stroke(surface_on_sheet(view, part.outline, false), dashed);
      if (halves == Halves::both) canvas.stroke(surface_on_sheet(view, part.outline, true), dashed);
    }
    std::stable_sort(moving.begin(), moving.end(), [](const DrawnPart& a, const DrawnPart& b) {
      return area(a.outline) > area(b.outline);
    });
    const std::string words = "at " + rounded(in_mm(end), 5) + " mm";
    const Lettering quiet{look::small_size, look::quiet, 0.5, false, false, true};
    std::optional<Spot> at;
    for (const DrawnPart& part : moving) {
      Room room(on_sheet(view, part.outline, false));
      at = room.take(canvas.text_length(words, quiet.size) + 6, quiet.size + 3, room.middle());
      if (at) break;
    }
    if (at) {
      canvas.text(*at, words, quiet);
      continue;
    }
    Room room(on_sheet(view, moving.front().outline, false));
    callouts.push_back({words, room.take(0.4, 0.4, {room.middle().x, 0}).value_or(room.middle()), true});
  }
}

void draw_sensors(Canvas& canvas, const Device& device, const SectionView& view,
                  std::vector<Callout>& callouts) {
  for (const Sensor& sensor : device.sensors) {
    const double z = sensor.at.z + (sensor.moves ? drawn_displacement(device) : 0);
    const Spot at = view.spot(sensor.at.r, z);
    const Pen pen{look::ink, 1.2};
    const double face = view.scale * sensor.face_radius;
    canvas.stroke(Line{{at.x, at.y - std::max(face, 4.0)}, {at.x, at.y + std::max(face, 4.0)}}, pen);
    canvas.stroke(Line{{at.x - 4, at.y}, {at.x + 4, at.y}}, pen);
    callouts.push_back({sensor.name, {at.x, at.y - std::max(face, 4.0) - 2}, false, false});
  }
}

std::string words_below(const Device& device) {
  std::string words = "section through the axis, mm";
  if (!device.moving.empty())
    words += "; moving parts at displacement " + rounded(in_mm(drawn_displacement(device)), 5) + " mm" +
             (ghost_displacements(device).empty() ? "" : ", dashed at the ends of the stroke");
  return words;
}

std::string words_at_foot(const Device& device) {
  std::string words;
  if (!device.coils.empty()) words += "current > 0: dot = towards you, cross = away.  ";
  if (!device.magnets.empty()) words += "arrow: magnetisation.  ";
  return words + "force > 0: towards +z";
}

/// Everything but title and foot; the callouts that it wants are returned.
std::vector<Callout> draw_section(Canvas& canvas, const Device& device, const Layout& layout,
                                  const SectionView& view, Halves halves) {
  const std::vector<DrawnPart> parts = drawn_parts(device, drawn_displacement(device));
  std::vector<Dimension> along_z, along_r;
  collect_dimensions(parts, view, halves, along_z, along_r);
  const double bottom = view.y_of_0 + layout.below_axis * layout.half_height();
  const double top = view.y_of_0 - layout.half_height();
  dimension_z(canvas, along_z, bottom + 12, {36, canvas.width() - right_margin, 0, 0});
  dimension_r(canvas, along_r, layout.x_to() + 56, {0, 0, top - 36, std::max(view.y_of_0 + 2, bottom) + 36});
  std::vector<Callout> callouts;
  for (const DrawnPart& part : parts) draw_body(canvas, part, view, halves);
  draw_ghosts(canvas, device, view, halves, callouts);
  draw_axis(canvas, layout, view);
  for (const DrawnPart& part : parts) draw_inside(canvas, device, part, view, halves, callouts);
  draw_sensors(canvas, device, view, callouts);
  return callouts;
}

}  // namespace

Canvas draw_device(const Device& device, Halves halves, std::optional<double> points_per_metre) {
  const Layout layout(device, halves, points_per_metre);
  Canvas trial(layout.sheet_width(), 100);  // tells how many rows of names the drawing needs
  const std::vector<Callout> wanted = draw_section(trial, device, layout, layout.view(0), halves);
  const double names = 24 + callout_row_height * callout_rows(trial, wanted, layout.names_to() - 20);
  const double top = title_height + names;
  const double height = top + (1 + layout.below_axis) * layout.half_height() + 84;

  Canvas canvas(layout.sheet_width(), height);
  draw_title(canvas, device.title, words_below(device), 20);
  const std::vector<Callout> callouts = draw_section(canvas, device, layout, layout.view(top), halves);
  draw_callouts(canvas, callouts, 20, layout.names_to(), top - 24);
  canvas.text({20, height - 16},
              canvas.shortened(words_at_foot(device), canvas.width() - 40, look::small_size),
              {look::small_size, look::quiet});
  return canvas;
}

}  // namespace coilpull
