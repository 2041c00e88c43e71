// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/detail/arrangement.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "meshing/check_section.hpp"
#include "meshing/detail/edge_geometry.hpp"
#include "meshing/detail/plane.hpp"

namespace coilpull::detail {
namespace {

struct Drawn {
  Edge edge;
  int part;
  bool on_outer;
};

std::vector<Drawn> everything_drawn(const Section& section) {
  std::vector<Drawn> drawn;
  for (std::size_t part = 0; part < section.parts.size(); ++part)
    for (const Edge& edge : section.parts[part].outline.edges)
      drawn.push_back({edge, static_cast<int>(part), false});
  const double z = section.outer.centre_z, size = section.outer.radius;
  const Point centre{0, z}, bottom{0, z - size}, side{size, z}, top{0, z + size};
  drawn.push_back({{bottom, side, centre}, boundary, true});
  drawn.push_back({{side, top, centre}, boundary, true});
  drawn.push_back({{top, bottom}, boundary, false});
  return drawn;
}

class Arranger {
public:
  explicit Arranger(const Section& section) : section_(section), same_(coincident * section.outer.radius) {}

  Arrangement run() {
    const std::vector<Drawn> drawn = everything_drawn(section_);
    for (const Drawn& d : drawn)
      for (const Point p : {d.edge.from, d.edge.to}) vertex(p);
    for (const Drawn& d : drawn) add_split(d);
    return std::move(result_);
  }

private:
  int vertex(Point p) {
    for (std::size_t i = 0; i < result_.vertices.size(); ++i)
      if (norm(p - result_.vertices[i]) <= same_) return static_cast<int>(i);
    if (p.r <= same_) p.r = 0;
    result_.vertices.push_back(p);
    return static_cast<int>(result_.vertices.size()) - 1;
  }

  void add_split(const Drawn& drawn) {
    const int from = vertex(drawn.edge.from), to = vertex(drawn.edge.to);
    std::vector<std::pair<double, int>> stops = {{0, from}, {1, to}};
    const Box box = box_of(drawn.edge);
    for (int v = 0; v < static_cast<int>(result_.vertices.size()); ++v) {
      const Point p = result_.vertices[v];
      if (v == from || v == to || boxes_apart(box, {p.r, p.r, p.z, p.z}, same_)) continue;
      if (nearest(drawn.edge, p).distance <= same_) stops.push_back({parameter_of(drawn.edge, p), v});
    }
    std::sort(stops.begin(), stops.end());
    for (std::size_t i = 0; i + 1 < stops.size(); ++i) add_piece(drawn, stops[i].second, stops[i + 1].second);
  }

  void add_piece(const Drawn& drawn, int from, int to) {
    const Edge piece = {result_.vertices[from], result_.vertices[to], drawn.edge.centre};
    std::vector<int>& between = curves_between_[std::minmax(from, to)];
    for (const int c : between) {
      Curve& curve = result_.curves[c];
      if (norm(point_at(curve.edge, 0.5) - point_at(piece, 0.5)) > 4 * same_) continue;
      curve.on_outer = curve.on_outer || drawn.on_outer;
      if (drawn.part != boundary) claim(curve.from == from ? curve.left : curve.right, drawn.part, piece);
      return;
    }
    between.push_back(static_cast<int>(result_.curves.size()));
    result_.curves.push_back({from, to, piece});
    result_.curves.back().on_outer = drawn.on_outer;
    if (drawn.part != boundary) result_.curves.back().left = drawn.part;
  }

  void claim(int& side, int part, const Edge& piece) const {
    if (side != nothing) throw_overlap(section_, side, part, point_at(piece, 0.5));
    side = part;
  }

  const Section& section_;
  double same_;
  Arrangement result_;
  std::map<std::pair<int, int>, std::vector<int>> curves_between_;
};

}  // namespace

Arrangement arrange(const Section& section) { return Arranger(section).run(); }

}  // namespace coilpull::detail
