// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/solenoid_slice.hpp"

#include <algorithm>
#include <stdexcept>

#include "materials/constants.hpp"
#include "solver/field/field_solver.hpp"

namespace coilpull {
namespace {

constexpr double core_radius = SolenoidSlice::core_radius, sheet_radius = SolenoidSlice::sheet_radius;
constexpr double thickness = 0.0002, height = 0.002;
constexpr double winding_gain = sheet_radius * thickness / 3 + thickness * thickness / 12;
constexpr double core_area = pi * core_radius * core_radius;
constexpr double bore_area = pi * sheet_radius * sheet_radius - core_area;

/// Core, air and winding, `layers` columns of two triangles in each.
std::shared_ptr<const Mesh> slice(int layers) {
  const double ends[] = {0, core_radius, sheet_radius, sheet_radius + thickness};
  auto mesh = std::make_shared<Mesh>();
  mesh->region_names = {"core", "air", "winding"};
  const int columns = 3 * layers;
  mesh->nodes.resize(2, 2 * (columns + 1));
  mesh->triangles.resize(3, 2 * columns);
  mesh->region_of.resize(2 * columns);
  for (int i = 0; i <= columns; ++i) {
    const int region = std::min(i / layers, 2);
    const double r = ends[region] + (ends[region + 1] - ends[region]) * (i - region * layers) / layers;
    mesh->nodes.col(2 * i) << r, 0;
    mesh->nodes.col(2 * i + 1) << r, height;
  }
  for (int i = 0; i < columns; ++i) {
    mesh->triangles.col(2 * i) << 2 * i, 2 * i + 2, 2 * i + 1;
    mesh->triangles.col(2 * i + 1) << 2 * i + 1, 2 * i + 2, 2 * i + 3;
    mesh->region_of[2 * i] = mesh->region_of[2 * i + 1] = i / layers;
  }
  return mesh;
}

}  // namespace

SolenoidSlice solve_slice(const SoftLaw& law, double n_i, const SliceMesh& how) {
  Problem problem;
  problem.regions.resize(3);
  problem.circuits = 1;
  problem.blending_length = core_radius / 3;
  problem.regions[0].material = law;
  problem.regions[2].winding = Winding{0, 1 / (height * thickness)};
  FieldOptions options;
  options.order = how.order;
  const Field field =
      solve_field(slice(how.layers), problem, Eigen::VectorXd::Constant(1, n_i * height), options);
  if (!field.report.usable()) throw std::runtime_error(words_for(field.report.ending));
  const double flux = field.linkage_Wb[0] - 2 * pi * mu0 * n_i * winding_gain;
  const double outside = 0.5 * mu0 * n_i * n_i * bore_area + pi * mu0 * n_i * n_i * winding_gain;
  return {flux, flux_density(field, {0.5 * core_radius, 0.4 * height}).z,
          (field.coenergy_J / height - outside) / core_area};
}

}  // namespace coilpull
