// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "solver/field/field.hpp"

namespace coilpull {

/// |B| that the given fraction of a region's volume stays below. The largest |B| itself has no limit at a
/// sharp corner and would only tell the size of the mesh.
class FluxDensityPercentile {
public:
  /// @param region  number in Mesh::region_names
  FluxDensityPercentile(const detail::Space& space, int region);
  ~FluxDensityPercentile();
  FluxDensityPercentile(FluxDensityPercentile&&) noexcept;

  /// [T]; NaN when the region has no triangle.
  /// @param field  of the same space    @param fraction  0 .. 1
  double of(const Field& field, double fraction) const;

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

/// The same, once.
double flux_density_percentile(const Field& field, int region, double fraction);

}  // namespace coilpull
