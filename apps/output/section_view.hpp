// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/output/canvas.hpp"
#include "meshing/outline.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// Whether pictures of a section show its mirror image below the axis too.
enum class Halves { upper, both };

/// A section through the axis on the sheet: z to the right, r upwards, one scale for both.
struct SectionView {
  double scale;   ///< points per metre
  double x_of_0;  ///< of z = 0
  double y_of_0;  ///< of the axis
  Spot spot(double r, double z) const { return {x_of_0 + scale * z, y_of_0 - scale * r}; }
  Spot mirrored(Spot at) const { return {at.x, 2 * y_of_0 - at.y}; }
};

enum class PartKind { core, coil, magnet };

/// A part where it stands at some displacement.
struct DrawnPart {
  std::string name;
  PartKind kind;
  Outline outline;
  bool moves;
};

/// Cores, coils, magnets in the device's order; the moving ones shifted by the displacement.
std::vector<DrawnPart> drawn_parts(const Device& device, double displacement);

Box box_around(const std::vector<DrawnPart>& parts);

/// The outline on the sheet, arcs in steps that no eye sees; mirrored: below the axis.
Line on_sheet(const SectionView& view, const Outline& outline, bool mirrored);

/// The same without the edges along the axis, where a solid part has no surface.
std::vector<Line> surface_on_sheet(const SectionView& view, const Outline& outline, bool mirrored);

/// Looks for free places inside a closed outline, so that what is written in a part lies in it and on nothing
/// else.
class Room {
public:
  explicit Room(Line corners);
  Spot middle() const;
  double height() const { return around_.y_to - around_.y_from; }
  double thickness() const;  ///< smaller extent of the box around it

  /// The middle of a free rectangle, as near to the wish as there is one; taken from then on.
  std::optional<Spot> take(double width, double height, Spot wish);

private:
  bool is_free(const Area& area) const;
  Line corners_;
  Area around_;
  std::vector<Area> taken_ = {};
};

}  // namespace coilpull
