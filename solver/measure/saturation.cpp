// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/saturation.hpp"

#include <algorithm>
#include <limits>
#include <utility>
#include <vector>

#include "solver/fem/space.hpp"

namespace coilpull {

using namespace detail;

double flux_density_percentile(const Field& field, int region, double fraction) {
  const Space& space = *field.space;
  std::vector<std::pair<double, double>> samples;  // |B|, volume of a quadrature point
  ElementFields fields;
  int dofs[basis_size(highest_order)];
  Eigen::VectorXd x(basis_size(space.dofs.order()));
  double volume = 0;
  for (Eigen::Index t = 0; t < space.topology->triangles.cols(); ++t) {
    if (space.mesh->region_of[t] != region) continue;
    evaluate_fields(space, static_cast<int>(t), fields);
    space.dofs.of_triangle(static_cast<int>(t), dofs);
    for (Eigen::Index i = 0; i < x.size(); ++i) x[i] = field.coefficients[dofs[i]];
    const Eigen::ArrayXd b = ((fields.b_r * x).array().square() + (fields.b_z * x).array().square()).sqrt();
    for (Eigen::Index q = 0; q < b.size(); ++q) samples.push_back({b[q], fields.at.weight[q]});
    volume += fields.at.weight.sum();
  }
  if (samples.empty()) return std::numeric_limits<double>::quiet_NaN();
  std::sort(samples.begin(), samples.end());
  double below = 0;
  for (const auto& [b, part] : samples)
    if ((below += part) >= fraction * volume) return b;
  return samples.back().first;
}

}  // namespace coilpull
