// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/vtu_cells.hpp"

#include "materials/constants.hpp"

namespace coilpull {
namespace {

Eigen::Vector2d field_strength(const RegionPhysics& region, const Eigen::Vector2d& b) {
  if (const auto* magnet = std::get_if<MagnetLaw>(&region.material))
    return (b - Eigen::Vector2d(magnet->remanence_r_T, magnet->remanence_z_T)) /
           (mu0 * magnet->recoil_permeability);
  const double size = b.norm();
  if (size == 0) return Eigen::Vector2d::Zero();
  return evaluate(std::get<SoftLaw>(region.material), size).h / size * b;
}

}  // namespace

VtuCells vtu_cells(FieldSample sample, const Problem& problem, const std::vector<std::string>& part_names,
                   const std::vector<double>& currents_A) {
  VtuCells cells;
  cells.h.resize(2, sample.b.cols());
  cells.j_phi = Eigen::VectorXd::Zero(sample.triangles());
  for (Eigen::Index t = 0; t < sample.triangles(); ++t) {
    const RegionPhysics& region = problem.regions.at(sample.region_of[t]);
    if (region.winding)
      cells.j_phi[t] = region.winding->turns_per_area * currents_A.at(region.winding->circuit);
    for (Eigen::Index k = t * sample.per_triangle(); k < (t + 1) * sample.per_triangle(); ++k)
      cells.h.col(k) = field_strength(region, sample.b.col(k));
  }
  cells.part_names = part_names;
  cells.sample = std::move(sample);
  return cells;
}

std::vector<int> vtk_order(int divisions) {
  std::vector<int> order;
  for (int rim = 0; 3 * rim <= divisions; ++rim) {  // corners of the triangle that is left inside
    const int n = divisions - 3 * rim;
    const auto point = [&](int i, int j) { order.push_back(lattice_point(divisions, rim + i, rim + j)); };
    point(0, 0);
    if (n == 0) break;
    point(n, 0);
    point(0, n);
    for (int k = 1; k < n; ++k) point(k, 0);
    for (int k = 1; k < n; ++k) point(n - k, k);
    for (int k = 1; k < n; ++k) point(0, n - k);
  }
  return order;
}

}  // namespace coilpull
