// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "apps/output/section_view.hpp"
#include "solver/field/sample.hpp"

namespace coilpull {

/// |B| in T on the pixels of the upper half of a view, row after row from the top; NaN outside the mesh.
struct FieldMap {
  int columns, rows;
  std::vector<float> b_T;
};

/// @param window   what is shown: r from 0 to r_to, z_from to z_to [m]
/// @param columns  pixels along z; along r as many as make them square
FieldMap field_map(const FieldSample& sample, const Box& window, int columns);

/// |B| that 99.5 % of the map's area stays below [T]: sharp corners, where |B| grows without bound in theory,
/// do not spend the colours.
double nearly_highest(const FieldMap& map);

/// Colours from 0 to `highest`, outside the mesh as 0; with its mirror image below for Halves::both.
Pixels coloured(const FieldMap& map, double highest_T, Halves halves);

}  // namespace coilpull
