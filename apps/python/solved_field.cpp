// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/python/solved_field.hpp"

#include <algorithm>
#include <cmath>

#include "materials/detail/nan.hpp"
#include "meshing/mesh_section.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/refine/resolution_for.hpp"

namespace coilpull {
namespace {

namespace py = pybind11;

Eigen::VectorXd currents_of(const Device& device, const std::map<std::string, double>& currents_A) {
  const auto count = static_cast<Eigen::Index>(device.circuits.size());
  Eigen::VectorXd currents = Eigen::VectorXd::Zero(count);
  for (const auto& [circuit, current_A] : currents_A) {
    const auto found = std::find(device.circuits.begin(), device.circuits.end(), circuit);
    if (found == device.circuits.end()) {
      std::string names;
      for (const std::string& name : device.circuits) names += (names.empty() ? "" : ", ") + name;
      throw BadDevice("current_A: no circuit is called " + circuit + "; there are: " + names + ".");
    }
    if (!std::isfinite(current_A)) throw BadDevice("current_A: the current of " + circuit + " is no number.");
    currents[found - device.circuits.begin()] = current_A;
  }
  return currents;
}

std::vector<py::ssize_t> shape_of(const Points& points) {
  return {points.shape(), points.shape() + points.ndim()};
}

/// set(k, r, z) for every point inside.
template <class Set>
void at_points(const SolvedField& solved, const Points& r_m, const Points& z_m, const Set& set) {
  if (shape_of(r_m) != shape_of(z_m)) throw py::value_error("r_m and z_m have different shapes.");
  for (py::ssize_t k = 0; k < r_m.size(); ++k) {
    const Point at{r_m.data()[k], z_m.data()[k]};
    // Beyond it there is no mesh; on the circle itself a chord may lie inside its arc.
    if (at.r >= 0 && std::hypot(at.r, at.z - solved.centre_z) < solved.radius) set(k, at);
  }
}

py::array_t<double> empty_like(const Points& points) {
  py::array_t<double> values(shape_of(points));
  std::fill(values.mutable_data(), values.mutable_data() + values.size(), nan);
  return values;
}

}  // namespace

SolvedField solve_field_of(const DeviceFile& file, double displacement_m,
                           const std::map<std::string, double>& currents_A, int order) {
  if (!std::isfinite(displacement_m)) throw BadDevice("displacement_m is no number.");
  if (order < 1 || order > 6) throw py::value_error("order is from 1 to 6.");
  const Eigen::VectorXd currents = currents_of(file.device, currents_A);
  const py::gil_scoped_release others_may_run;
  try {
    Device device = file.device;
    device.displacements = {displacement_m};  // the half circle need not hold the whole stroke
    const Resolution resolution = resolution_for(device.tolerance);
    Mesher mesher;
    const auto mesh = std::make_shared<Mesh>(mesher.mesh(section_at(device, displacement_m, resolution)));
    FieldOptions options;
    options.order = order;
    options.outer_ratio = resolution.outer_ratio;
    const HalfCircle circle = half_circle_of(device, resolution.outer_ratio);
    Field field = solve_field(mesh, make_problem(device, mesh->region_names), currents, options);
    if (!field.report.usable()) throw std::runtime_error("Newton's method did not converge at this point.");
    return {std::move(field), circle.radius, circle.centre_z};
  } catch (const BadSection& trouble) {
    throw BadDevice(explain(trouble, file));
  }
}

std::pair<py::array_t<double>, py::array_t<double>> flux_density_of(const SolvedField& solved,
                                                                    const Points& r_m, const Points& z_m) {
  py::array_t<double> br = empty_like(r_m), bz = empty_like(r_m);
  at_points(solved, r_m, z_m, [&](py::ssize_t k, Point at) {
    const FluxDensity b = flux_density(solved.field, at);
    br.mutable_data()[k] = b.r;
    bz.mutable_data()[k] = b.z;
  });
  return {br, bz};
}

py::array_t<double> vector_potential_of(const SolvedField& solved, const Points& r_m, const Points& z_m) {
  py::array_t<double> a = empty_like(r_m);
  at_points(solved, r_m, z_m,
            [&](py::ssize_t k, Point at) { a.mutable_data()[k] = vector_potential(solved.field, at); });
  return a;
}

py::array_t<double> linkages_of(const SolvedField& solved) {
  py::array_t<double> values(static_cast<py::ssize_t>(solved.field.linkage_Wb.size()));
  std::copy(solved.field.linkage_Wb.begin(), solved.field.linkage_Wb.end(), values.mutable_data());
  return values;
}

}  // namespace coilpull
