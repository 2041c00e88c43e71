// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <pybind11/numpy.h>

#include <map>
#include <string>

#include "apps/device_file/read_device_file.hpp"
#include "solver/field/field.hpp"

namespace coilpull {

struct SolvedField {
  Field field;
  double radius, centre_z;  ///< of the half circle that holds it [m]
};

/// @param currents_A  by circuit; one left out carries none
/// @throws BadDevice           no such circuit, or parts that overlap there
/// @throws std::runtime_error  no mesh, or Newton's method did not converge
SolvedField solve_field_of(const DeviceFile& file, double displacement_m,
                           const std::map<std::string, double>& currents_A, int order);

using Points = pybind11::array_t<double, pybind11::array::c_style | pybind11::array::forcecast>;

// At points of arrays of one shape [m]; NaN outside the half circle.

/// (Br, Bz) [T]  @throws pybind11::value_error  the shapes differ
std::pair<pybind11::array_t<double>, pybind11::array_t<double>> flux_density_of(const SolvedField& solved,
                                                                                const Points& r_m,
                                                                                const Points& z_m);
/// A_phi [T m]  @throws pybind11::value_error  the shapes differ
pybind11::array_t<double> vector_potential_of(const SolvedField& solved, const Points& r_m,
                                              const Points& z_m);

/// (circuits) [Wb]
pybind11::array_t<double> linkages_of(const SolvedField& solved);

}  // namespace coilpull
