// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/clear_chords.hpp"

#include <algorithm>
#include <cmath>

#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/orientation.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull::detail {
namespace {

constexpr int most_rounds = 10;
constexpr double clearance = 6;

/// One chord of a curve, with the numbers of the vertices it ends at (or -1).
struct Chord {
  double t_from, t_to;
  Edge edge;  ///< with the arc's centre
  int vertex_from, vertex_to;
  double height;  ///< sagitta [m]
};

std::vector<Chord> chords_of(const Curve& curve, const std::vector<double>& stops) {
  std::vector<Chord> chords;
  for (std::size_t i = 0; i <= stops.size(); ++i) {
    const bool first = i == 0, last = i == stops.size();
    Chord chord = {first ? 0 : stops[i - 1], last ? 1 : stops[i],  curve.edge,
                   first ? curve.from : -1,  last ? curve.to : -1, 0};
    chord.edge.from = point_at(curve.edge, chord.t_from);
    chord.edge.to = point_at(curve.edge, chord.t_to);
    const double turn = sweep(curve.edge) * (chord.t_to - chord.t_from);
    if (curve.edge.centre) chord.height = 2 * radius(curve.edge) * std::pow(std::sin(turn / 4), 2);
    chords.push_back(chord);
  }
  return chords;
}

/// p lies between the chord and its arc, or on the chord's line within the circle.
bool cut_off(const Chord& chord, double turn, Point p) {
  if (norm(p - *chord.edge.centre) >= radius(chord.edge)) return false;
  return orientation(chord.edge.from, chord.edge.to, p) * turn <= 0;
}

bool clashes(const Chord& arc, double turn, const Chord& other, bool curves_meet) {
  const auto is_end_of_arc = [&](int v) { return v >= 0 && (v == arc.vertex_from || v == arc.vertex_to); };
  const bool from_shared = is_end_of_arc(other.vertex_from), to_shared = is_end_of_arc(other.vertex_to);
  if (from_shared && to_shared) return true;
  if (!from_shared && cut_off(arc, turn, other.edge.from)) return true;
  if (!to_shared && cut_off(arc, turn, other.edge.to)) return true;
  if (from_shared || to_shared || (curves_meet && (arc.vertex_from >= 0 || arc.vertex_to >= 0))) return false;
  const Edge flat = {arc.edge.from, arc.edge.to}, flat_other = {other.edge.from, other.edge.to};
  const double need = clearance * arc.height;
  return !boxes_apart(box_of(flat), box_of(flat_other), need) && nearest(flat, flat_other).distance < need;
}

/// The arc's chords that have to be halved for the sake of the other curve.
void mark(const std::vector<Chord>& arc, double turn, const std::vector<Chord>& other, bool curves_meet,
          std::vector<bool>& halve) {
  double highest = 0;
  for (const Chord& chord : arc) highest = std::max(highest, chord.height);
  for (const Chord& near : other) {
    const Box box = box_of({near.edge.from, near.edge.to});
    for (std::size_t i = 0; i < arc.size(); ++i)
      if (!halve[i] && !boxes_apart(box_of({arc[i].edge.from, arc[i].edge.to}), box, clearance * highest))
        halve[i] = clashes(arc[i], turn, near, curves_meet);
  }
}

}  // namespace

void clear_chords(const PlanarMap& map, std::vector<std::vector<double>>& stops) {
  const std::size_t n = map.curves.size();
  std::vector<Box> boxes;
  std::vector<std::vector<Chord>> chords;
  for (std::size_t c = 0; c < n; ++c) {
    boxes.push_back(box_of(map.curves[c].edge));
    chords.push_back(chords_of(map.curves[c], stops[c]));
  }
  bool changed = true;
  for (int round = 0; changed && round < most_rounds; ++round) {
    changed = false;
    for (std::size_t c = 0; c < n; ++c) {
      if (!map.curves[c].edge.centre) continue;
      double highest = 0;
      for (const Chord& chord : chords[c]) highest = std::max(highest, chord.height);
      std::vector<bool> halve(chords[c].size(), false);
      for (std::size_t other = 0; other < n; ++other)
        if (other != c && !boxes_apart(boxes[c], boxes[other], clearance * highest))
          mark(chords[c], sweep(map.curves[c].edge), chords[other], map.curves[c].meets(map.curves[other]),
               halve);
      std::vector<double> finer;
      for (std::size_t i = 0; i < halve.size(); ++i) {
        if (halve[i]) finer.push_back((chords[c][i].t_from + chords[c][i].t_to) / 2);
        if (i + 1 < halve.size()) finer.push_back(chords[c][i].t_to);
      }
      if (finer.size() == stops[c].size()) continue;
      stops[c] = finer;
      chords[c] = chords_of(map.curves[c], finer);
      changed = true;
    }
  }
}

}  // namespace coilpull::detail
