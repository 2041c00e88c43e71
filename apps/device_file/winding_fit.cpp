// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/winding_fit.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {

namespace {

// A window drawn as exactly n wires wide holds n, whatever the last bit of the quotient.
double whole(double quotient) { return std::max(0.0, std::floor(quotient + 1e-9)); }

double turns_in_layers(double across, double along, double diameter) {
  if (whole(across / diameter) < 1) return 0;
  const double layers = 1 + whole((across / diameter - 1) / (std::sqrt(3.0) / 2));
  const double second = std::floor(layers / 2);
  return (layers - second) * whole(along / diameter) + second * whole(along / diameter - 0.5);
}

}  // namespace

double turns_in_rows(Window window, double overall_diameter) {
  return whole((window.radial + window.layer_film) / (overall_diameter + window.layer_film)) *
         whole(window.axial / overall_diameter);
}

double turns_nested(Window window, double overall_diameter) {
  if (window.layer_film > 0) return turns_in_rows(window, overall_diameter);
  return std::max({turns_in_rows(window, overall_diameter),
                   turns_in_layers(window.radial, window.axial, overall_diameter),
                   turns_in_layers(window.axial, window.radial, overall_diameter)});
}

double turns_held(Window window, double overall_diameter, Packing packing) {
  return packing == Packing::rows ? turns_in_rows(window, overall_diameter)
                                  : turns_nested(window, overall_diameter);
}

Window window_of(const Coil& coil) {
  const Box box = bounding_box(coil.outline);
  return {box.r_to - box.r_from, box.z_to - box.z_from, coil.bobbin ? coil.bobbin->layer_film : 0};
}

double thickest_for(Window window, double turns, Packing packing) {
  double fits = 0;
  double too_thick = 2 * std::min(window.radial, window.axial);
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = (fits + too_thick) / 2;
    (turns_held(window, middle, packing) >= turns ? fits : too_thick) = middle;
  }
  return fits;
}

}  // namespace coilpull
