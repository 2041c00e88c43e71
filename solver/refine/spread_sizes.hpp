// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/refine/feature_map.hpp"

namespace coilpull {

/// Sizes that change the sum of all errors by `ratio` (below 1: smaller) at the least number of triangles.
/// A corner's error falls like size^1.5 and every further ring of triangles around it costs the same; along
/// an edge the error falls like size^6 where the field is smooth and like size^3 inside saturable steel
/// (measured: its B-H bends within a few triangles), and the triangles rise like size^-2. At the optimum one
/// more triangle gains equally much everywhere (Lagrange's multiplier, found by bisection). Without errors
/// the sizes stay. Corners that have been given a size before are not coarsened again: what a small error
/// there rises to is less sure than the triangles saved are worth.
/// Inside saturable steel the error sits on a thin front (measured: nine tenths of it in one place of
/// fifteen). So where `errors` knows its spots, these get smaller triangles, and not all the steel along an
/// edge; such sizes serve the one displacement that was measured.
/// @param parts  of any displacement: their corners and edges number the features
Resolution spread_over_features(const Device& device, const std::vector<Region>& parts,
                                const Resolution& measured_at, const FeatureErrors& errors, double ratio);

}  // namespace coilpull
