// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/measure/volume_samples.hpp"

namespace coilpull {

/// |B| that the given fraction of a region's volume stays below [T]; NaN when the region has no triangle. The
/// largest |B| itself has no limit at a sharp corner and would only tell the size of the mesh.
/// @param region  samples of it    @param fraction  0 .. 1
double flux_density_percentile(const Field& field, const VolumeSampler& region, double fraction);

/// The same, once. @param region  number in Mesh::region_names
double flux_density_percentile(const Field& field, int region, double fraction);

}  // namespace coilpull
