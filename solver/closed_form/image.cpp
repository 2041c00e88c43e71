// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/image.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include "solver/closed_form/thick_coil.hpp"

namespace coilpull {

namespace {

void require_one_side(double z_from, double z_to, double plane_z) {
  if (z_from < plane_z && plane_z < z_to)
    throw std::invalid_argument("the iron's surface at z = " + std::to_string(plane_z) +
                                " m cuts through a source from " + std::to_string(z_from) + " m to " +
                                std::to_string(z_to) + " m: allowed is a source on one side");
}

}  // namespace

double image_factor(double mu_r) { return std::isinf(mu_r) ? 1 : (mu_r - 1) / (mu_r + 1); }

Loop mirrored(const Loop& loop, double plane_z) { return {loop.radius, 2 * plane_z - loop.z}; }

CurrentSheet mirrored(const CurrentSheet& sheet, double plane_z) {
  return {sheet.radius, 2 * plane_z - sheet.z_to, 2 * plane_z - sheet.z_from};
}

Box mirrored(const Box& section, double plane_z) {
  return {section.r_from, section.r_to, 2 * plane_z - section.z_to, 2 * plane_z - section.z_from};
}

AxialMagnet image_of(const AxialMagnet& magnet, double plane_z, double mu_r) {
  return {mirrored(magnet.section, plane_z), image_factor(mu_r) * magnet.remanence_T,
          magnet.recoil_permeability};
}

double force_by_iron(const AxialMagnet& magnet, double plane_z, double mu_r) {
  require_one_side(magnet.section.z_from, magnet.section.z_to, plane_z);
  return force_on(magnet, image_of(magnet, plane_z, mu_r));
}

double force_by_iron(const Box& coil, double ampere_turns, double plane_z, double mu_r) {
  require_one_side(coil.z_from, coil.z_to, plane_z);
  return image_factor(mu_r) * ampere_turns * ampere_turns * inductance_slope(coil, mirrored(coil, plane_z));
}

double force_by_iron(const Loop& loop, double amperes, double plane_z, double mu_r) {
  return image_factor(mu_r) * amperes * amperes * inductance_slope(loop, mirrored(loop, plane_z));
}

}  // namespace coilpull
