// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/part_marks.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/axes.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

template <class Part>
const Part* named(const std::vector<Part>& parts, const std::string& name) {
  const auto found =
      std::find_if(parts.begin(), parts.end(), [&](const Part& part) { return part.name == name; });
  return found == parts.end() ? nullptr : &*found;
}

void draw_arrow(Canvas& canvas, Spot middle, double dx, double dy, double length) {
  const double head = std::min(7.0, length / 3);
  const Spot tip{middle.x + dx * length / 2, middle.y + dy * length / 2};
  const Spot neck{tip.x - dx * head, tip.y - dy * head};
  canvas.stroke(Line{{middle.x - dx * length / 2, middle.y - dy * length / 2}, neck}, {look::ink, 1.3});
  canvas.fill({tip,
               {neck.x - dy * head * 0.42, neck.y + dx * head * 0.42},
               {neck.x + dy * head * 0.42, neck.y - dx * head * 0.42}},
              look::ink);
}

Colour fill_of(PartKind kind) {
  if (kind == PartKind::core) return perceived(0.89, 0.018, 250);
  if (kind == PartKind::coil) return perceived(0.91, 0.055, 75);
  return perceived(0.89, 0.045, 15);
}

/// The part's name with a word on what it is made of.
std::string longer_name(const Device& device, const std::string& name) {
  if (const Core* core = named(device.cores, name)) return name + ", " + core->material;
  if (const Coil* coil = named(device.coils, name)) return name + ", " + rounded(coil->turns, 6) + " turns";
  if (const Magnet* magnet = named(device.magnets, name))
    return name + ", " + rounded(std::hypot(magnet->law.remanence_r_T, magnet->law.remanence_z_T), 3) + " T";
  return name;
}

/// A name as it may be written.
struct NameTry {
  std::string words;
  double size;
  bool upward;
  double along(const Canvas& canvas) const { return canvas.text_length(words, size) + 8; }
  double across() const { return size + 4; }
};

struct Arrow {
  Spot middle;
  double dx, dy, length;
};

/// The longest arrow along the magnetisation that has room below the name.
std::optional<Arrow> magnetisation_arrow(const Magnet& magnet, Room& room) {
  const double r = magnet.law.remanence_r_T, z = magnet.law.remanence_z_T, size = std::hypot(r, z);
  if (!(size > 0)) return std::nullopt;
  const double dx = z / size, dy = -r / size;
  const bool below = room.height() > 3 * look::text_size;  // else beside the name
  const Spot wish{room.middle().x + (below ? 0 : 60), room.middle().y + (below ? look::text_size + 6 : 0)};
  for (double length = 44; length > 7; length *= 0.8)
    if (const auto at = room.take(std::max(9.0, std::abs(dx) * length + 6),
                                  std::max(9.0, std::abs(dy) * length + 6), wish))
      return Arrow{*at, dx, dy, length};
  return std::nullopt;
}

/// Takes room for the first way to write the name that fits and leaves a magnet an arrow that can be seen.
std::optional<NameTry> place_name(const Canvas& canvas, const Device& device, const std::string& name,
                                  Room& room, Spot& at) {
  constexpr double small = 10.5, visible = 20;
  const std::string longer = longer_name(device, name);
  const Magnet* magnet = named(device.magnets, name);
  for (const bool with_arrow : {true, false})
    for (const NameTry& one : {NameTry{longer, look::text_size, false}, NameTry{longer, small, false},
                               NameTry{name, look::text_size, false}, NameTry{name, small, false},
                               NameTry{longer, look::text_size, true}, NameTry{name, look::text_size, true},
                               NameTry{name, small, true}}) {
      Room trial = room;
      const double along = one.along(canvas), across = one.across();
      const auto found = trial.take(one.upward ? across : along, one.upward ? along : across, room.middle());
      if (!found) continue;
      Room after = trial;
      if (const auto arrow = magnet && with_arrow ? magnetisation_arrow(*magnet, after) : std::nullopt;
          magnet && with_arrow && (!arrow || arrow->length < visible))
        continue;
      room = trial;
      at = *found;
      return one;
    }
  return std::nullopt;
}

void draw_ring(Canvas& canvas, Spot at, double radius, bool towards) {
  canvas.ring(at, radius, {look::ink, 1});
  const double d = radius * 0.7;
  if (towards) return canvas.disc(at, std::max(1.1, radius * 0.27), look::ink);
  canvas.stroke({{{at.x - d, at.y - d}, {at.x + d, at.y + d}}, {{at.x - d, at.y + d}, {at.x + d, at.y - d}}},
                {look::ink, 1});
}

/// Two rings, left and right of the name, or above and below it.
void draw_current_sense(Canvas& canvas, const Coil& coil, Room& room, double name_length,
                        const SectionView& view, Halves halves) {
  for (const double side : {-1.0, 1.0})
    for (double radius = 6.5; radius > 2; radius *= 0.8) {
      const double size = 2 * radius + 6;
      const Spot middle = room.middle();
      const auto at = room.take(size, size, {middle.x + side * (name_length / 2 + 24), middle.y});
      if (!at) continue;
      draw_ring(canvas, *at, radius, coil.sense > 0);
      if (halves == Halves::both) draw_ring(canvas, view.mirrored(*at), radius, coil.sense < 0);
      break;
    }
}

}  // namespace

void draw_body(Canvas& canvas, const DrawnPart& part, const SectionView& view, Halves halves) {
  for (const bool mirrored : {false, true}) {
    if (mirrored && halves == Halves::upper) break;
    const Line corners = on_sheet(view, part.outline, mirrored);
    canvas.fill(corners, fill_of(part.kind));
    const double width = std::clamp(Room(corners).thickness() / 8, 0.4, 1.0);
    canvas.stroke(surface_on_sheet(view, part.outline, mirrored), {look::ink, width});
  }
}

void draw_inside(Canvas& canvas, const Device& device, const DrawnPart& part, const SectionView& view,
                 Halves halves, std::vector<Callout>& callouts) {
  Room room(on_sheet(view, part.outline, false));
  Spot at{};
  const auto name = place_name(canvas, device, part.name, room, at);
  if (name)
    canvas.text(at, name->words, {name->size, look::ink, 0.5, name->upward});
  else
    callouts.push_back({part.name, room.take(0.4, 0.4, {room.middle().x, 0}).value_or(room.middle())});

  if (const Coil* coil = named(device.coils, part.name))
    draw_current_sense(canvas, *coil, room, name && !name->upward ? name->along(canvas) - 8 : 0, view,
                       halves);
  const Magnet* magnet = named(device.magnets, part.name);
  if (const auto arrow = magnet ? magnetisation_arrow(*magnet, room) : std::nullopt) {
    draw_arrow(canvas, arrow->middle, arrow->dx, arrow->dy, arrow->length);
    if (halves == Halves::both)
      draw_arrow(canvas, view.mirrored(arrow->middle), arrow->dx, -arrow->dy, arrow->length);
  }
}

}  // namespace coilpull
