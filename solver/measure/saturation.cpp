// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/saturation.hpp"

#include <algorithm>
#include <limits>
#include <vector>

#include "solver/fem/element_batch.hpp"

namespace coilpull {

using namespace detail;

namespace {

/// A quadrature point.
struct Sample {
  double b, volume;
};

/// The smallest b up to which the samples hold `wanted` of volume: quickselect, each round drops half.
double reached(std::vector<Sample>& samples, double wanted) {
  auto first = samples.begin(), last = samples.end();
  while (last - first > 1) {
    const auto middle = first + (last - first) / 2;
    std::nth_element(first, middle, last, [](const Sample& x, const Sample& y) { return x.b < y.b; });
    double below = 0;
    for (auto it = first; it != middle; ++it) below += it->volume;
    if (below >= wanted)
      last = middle;
    else
      wanted -= below, first = middle;
  }
  return first->b;
}

}  // namespace

struct FluxDensityPercentile::Inside {
  std::vector<ElementBatch> batches;
  Eigen::Index points = 0;
  double volume = 0;
};

FluxDensityPercentile::FluxDensityPercentile(const Space& space, int region)
    : inside_(std::make_unique<Inside>()) {
  std::vector<char> wanted(space.mesh->region_names.size(), 0);
  wanted.at(region) = 1;
  inside_->batches = batches_of(space, wanted);
  for (const ElementBatch& batch : inside_->batches) {
    inside_->points += batch.weight.size();
    inside_->volume += batch.weight.sum();
  }
}
FluxDensityPercentile::~FluxDensityPercentile() = default;
FluxDensityPercentile::FluxDensityPercentile(FluxDensityPercentile&&) noexcept = default;

double FluxDensityPercentile::of(const Field& field, double fraction) const {
  if (inside_->points == 0) return std::numeric_limits<double>::quiet_NaN();
  std::vector<Sample> samples;
  samples.reserve(inside_->points);
  Eigen::MatrixXd own, slots;
  Eigen::ArrayXXd b_r, b_z;
  for (const ElementBatch& batch : inside_->batches) {
    gather(batch.dofs, field.coefficients, own);
    flux_densities(batch, own, slots, b_r, b_z);
    b_r = (b_r.square() + b_z.square()).sqrt();
    for (Eigen::Index q = 0; q < b_r.size(); ++q) samples.push_back({b_r.data()[q], batch.weight.data()[q]});
  }
  return reached(samples, fraction * inside_->volume);
}

double flux_density_percentile(const Field& field, int region, double fraction) {
  return FluxDensityPercentile(*field.space, region).of(field, fraction);
}

}  // namespace coilpull
