// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/section.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

/// Factors on the wanted edge length at single features of the drawing: parts in the order cores, coils,
/// magnets. Empty: all 1.
struct FeatureSizes {
  std::vector<std::vector<double>> corner;  ///< (parts)(edges of the outline): where the edge starts
  std::vector<std::vector<double>> edge;    ///< (parts)(edges of the outline): along it, gaps included
};

/// A place inside a part that asks for small triangles.
struct FineSpot {
  Point at;
  double size;  ///< wanted edge length there at fineness 1 [m]
};

/// How finely a device is meshed: every length below is a wish that the size field passes to the mesher.
struct Resolution {
  double fineness = 1;         ///< all wanted lengths are divided by this
  double per_thickness = 0.8;  ///< edge length along a part's outline, in units of its smaller extent
  double per_length = 0.6;     ///< and of the length of that edge of the outline
  double at_corner =
      0.08;  ///< edge length at corners of steel and magnets, in units of that on their outline
  double corner_gaps = 10;     ///< that unit is at most so many gaps to the nearest other steel or magnet:
                               ///< fields change over the width of a hair gap at its mouth
  double corner_growth = 0.6;  ///< growth away from corners
  double growth = 0.6;         ///< growth away from outlines
  double per_gap =
      0.5;  ///< edge length in a gap between steel, magnets, moving and fixed, in units of the gap
  double per_coil_gap = 2.0;  ///< the same between a winding and a part that stands still to it
  double least = 6e-3;  ///< no wish below this fraction of the device: gaps below get stretched triangles
  double outer_ratio =
      1.3;                 ///< half circle over the smallest one that holds the device over its whole stroke
  double outer_arcs = 14;  ///< edges on the half circle
  FeatureSizes features = {};
  std::vector<FineSpot> spots = {};  ///< of one displacement
};

/// Parts at one displacement inside the half circle of the whole stroke. Parts in the order cores, coils,
/// magnets.
Section section_at(const Device& device, double displacement, const Resolution& resolution = {});

/// The half circle around every part at every displacement of the device, times ratio.
HalfCircle half_circle_of(const Device& device, double ratio);

/// Smallest distance between moving and fixed parts [m]; NaN when either is missing.
double clearance_at(const Device& device, double displacement);

/// Refuses drawings that cannot be solved, over the whole table.
/// @throws BadSection  parts overlap, a moving part comes closer to a fixed one than 1e-5 of the device, or
/// two parts
///                     of one group leave a gap below that without touching
void check_stroke(const Device& device);

}  // namespace coilpull
