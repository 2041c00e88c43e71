// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/device_file/table.hpp"
#include "meshing/outline.hpp"

namespace coilpull {

/// What a corner loses, as a lathe takes it off.
struct Cut {
  enum Kind { chamfer, fillet };
  Kind kind;
  double size;  ///< chamfer: length cut off each of the two edges; fillet: radius [m]
  Place place;  ///< of the key that asks for it; corners that share a key share its largest size
};

/// The edge that leads to a point is an arc about `centre`.
struct DrawnArc {
  Point centre;
  bool counter_clockwise;
};

/// A corner of an outline as drawn, before chamfers and fillets.
struct DrawnPoint {
  Point at;
  std::optional<Cut> cut = {};
  std::optional<DrawnArc> arc = {};
};

struct DrawnLoop {
  Outline outline;                 ///< in the direction drawn
  std::vector<std::size_t> point;  ///< by edge: the point that it leads to, or whose corner it cuts
};

/// The loop through all points and back to the first, corners cut. Arcs of half a turn or more become two
/// edges, so that the loop may be reversed. Edges that cuts use up vanish. A fillet where the outline leaves
/// the axis rounds the tip of the body: its arc is centred on the axis.
/// @throws BadDevice  a cut is longer than its edges, beside an arc, or where nothing turns
DrawnLoop loop_through(const std::vector<DrawnPoint>& points);

std::string mm_text(double metres);  ///< "0.75 mm", at most 6 digits
std::string place_text(Point at);    ///< "r = 5, z = -3 mm"

}  // namespace coilpull
