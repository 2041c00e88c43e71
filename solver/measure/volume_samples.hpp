// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "solver/field/field.hpp"

namespace coilpull {

/// A quantity at one quadrature point of a region, and the volume that the point stands for [m^3].
struct VolumeSample {
  double value;
  double volume;
};

/// Samples of one region of a mesh, for any number of fields on it.
class VolumeSampler {
public:
  /// @param region  number in Mesh::region_names
  VolumeSampler(const detail::Space& space, int region);
  ~VolumeSampler();
  VolumeSampler(VolumeSampler&&) noexcept;

  /// quantity(B_r, B_z) over the region, in no order. @param field  of the same space
  std::vector<VolumeSample> of(const Field& field,
                               const std::function<double(double, double)>& quantity) const;

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

/// The same, once.
std::vector<VolumeSample> volume_samples(const Field& field, int region,
                                         const std::function<double(double, double)>& quantity);

/// The value that the fraction (0 .. 1) of the volume stays below; NaN without samples.
double percentile(std::vector<VolumeSample> samples, double fraction);

/// Weighted by volume; NaN without samples.
double mean(const std::vector<VolumeSample>& samples);

/// Share of the volume whose value is below the limit; NaN without samples.
double fraction_below(const std::vector<VolumeSample>& samples, double limit);

}  // namespace coilpull
