// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/point.hpp"
#include "solver/field/sample.hpp"

namespace coilpull {

/// Lines of constant psi = r A_phi, which B follows, at psi = (k + 1/2) step for all whole k: between two
/// neighbours runs the flux 2 pi step. Points of each line in order. Marching triangles on the sample's
/// lattice.
std::vector<std::vector<Point>> flux_lines(const FieldSample& sample, double step);

}  // namespace coilpull
