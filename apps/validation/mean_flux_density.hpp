// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/field/field.hpp"

namespace coilpull {

/// Mean of B_z over the volume of a region of the mesh [T].
double mean_b_z(const Field& field, int region);

}  // namespace coilpull
