// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/mean_flux_density.hpp"

#include "solver/fem/space.hpp"

namespace coilpull {

double mean_b_z(const Field& field, int region) {
  const detail::Space& space = *field.space;
  double sum = 0, volume = 0;
  detail::ElementFields at;
  int dofs[detail::basis_size(detail::highest_order)];
  for (int t = 0; t < space.mesh->triangles.cols(); ++t) {
    if (space.mesh->region_of[t] != region) continue;
    detail::evaluate_fields(space, t, at);
    space.dofs.of_triangle(t, dofs);
    Eigen::VectorXd v(at.b_z.cols());
    for (Eigen::Index i = 0; i < v.size(); ++i) v[i] = field.coefficients[dofs[i]];
    sum += at.at.weight.matrix().dot(at.b_z * v);
    volume += at.at.weight.sum();
  }
  return sum / volume;
}

}  // namespace coilpull
