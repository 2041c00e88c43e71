// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/volume_samples.hpp"

#include <algorithm>

#include "materials/detail/nan.hpp"
#include "solver/fem/element_batch.hpp"

namespace coilpull {

using namespace detail;

namespace {

double total(const std::vector<VolumeSample>& samples) {
  double volume = 0;
  for (const VolumeSample& sample : samples) volume += sample.volume;
  return volume;
}

}  // namespace

struct VolumeSampler::Inside {
  std::vector<ElementBatch> batches;
};

VolumeSampler::VolumeSampler(const Space& space, int region) : inside_(std::make_unique<Inside>()) {
  std::vector<char> wanted(space.mesh->region_names.size(), 0);
  wanted.at(region) = 1;
  inside_->batches = batches_of(space, wanted);
}
VolumeSampler::~VolumeSampler() = default;
VolumeSampler::VolumeSampler(VolumeSampler&&) noexcept = default;

std::vector<VolumeSample> VolumeSampler::of(const Field& field,
                                            const std::function<double(double, double)>& quantity) const {
  std::vector<VolumeSample> samples;
  Eigen::MatrixXd own, slots;
  Eigen::ArrayXXd b_r, b_z;
  for (const ElementBatch& batch : inside_->batches) {
    gather(batch.dofs, field.coefficients, own);
    flux_densities(batch, own, slots, b_r, b_z);
    for (Eigen::Index q = 0; q < b_r.size(); ++q)
      samples.push_back({quantity(b_r.data()[q], b_z.data()[q]), batch.weight.data()[q]});
  }
  return samples;
}

std::vector<VolumeSample> volume_samples(const Field& field, int region,
                                         const std::function<double(double, double)>& quantity) {
  return VolumeSampler(*field.space, region).of(field, quantity);
}

double percentile(std::vector<VolumeSample> samples, double fraction) {
  if (samples.empty()) return nan;
  double wanted = fraction * total(samples);
  auto first = samples.begin(), last = samples.end();
  while (last - first > 1) {  // quickselect: each round drops half
    const auto middle = first + (last - first) / 2;
    std::nth_element(first, middle, last,
                     [](const VolumeSample& a, const VolumeSample& b) { return a.value < b.value; });
    double below = 0;
    for (auto it = first; it != middle; ++it) below += it->volume;
    if (below >= wanted)
      last = middle;
    else
      wanted -= below, first = middle;
  }
  return first->value;
}

double mean(const std::vector<VolumeSample>& samples) {
  double sum = 0;
  for (const VolumeSample& sample : samples) sum += sample.value * sample.volume;
  return sum / total(samples);
}

double fraction_below(const std::vector<VolumeSample>& samples, double limit) {
  double below = 0;
  for (const VolumeSample& sample : samples)
    if (sample.value < limit) below += sample.volume;
  return below / total(samples);
}

}  // namespace coilpull
