// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// The section that a winding has to fit into [m].
struct Window {
  double radial;
  double axial;
};

/// Round wires of this overall diameter side by side in straight rows and columns, as a winding that was
/// only counted would lie.
double turns_in_rows(Window window, double overall_diameter);

/// The most turns a careful winder can lay: each layer in the grooves of the one before, sqrt(3)/2
/// diameters further out (or along); every second layer half a diameter aside; never below turns_in_rows.
double turns_nested(Window window, double overall_diameter);

/// The largest overall diameter of which `turns` fit when nested [m].
double thickest_for(Window window, double turns);

}  // namespace coilpull
