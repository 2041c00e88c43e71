// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/device/device.hpp"

namespace coilpull {

/// The section that a winding has to fit into [m].
struct Window {
  double radial;
  double axial;
  double layer_film = 0;  ///< thickness between one layer and the next
};

/// Round wires of this overall diameter side by side in straight rows and columns, as a winding that was
/// only counted would lie.
double turns_in_rows(Window window, double overall_diameter);

/// The most turns a careful winder can lay: each layer in the grooves of the one before, sqrt(3)/2
/// diameters further out (or along); every second layer half a diameter aside; never below turns_in_rows.
/// Layers on a film cannot nest.
double turns_nested(Window window, double overall_diameter);

/// One of these.
double turns_held(Window window, double overall_diameter, Packing packing);

/// The largest overall diameter of which `turns` are held [m].
double thickest_for(Window window, double turns, Packing packing);

/// Of a coil drawn as a rectangle.
Window window_of(const Coil& coil);

}  // namespace coilpull
