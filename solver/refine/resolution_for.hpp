// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/device/section_at.hpp"

namespace coilpull {

/// First guess of the resolution that meets a tolerance (fraction of the table's largest |force|) at order 3.
/// Nearly all of the error sits in corners, and falls there like size^1.5 (measured on a saturating tube
/// core: a corner size of 0.15, 0.08, 0.04, 0.02 leaves 5e-4, 1.6e-4, 5e-5, 1.6e-5 of the peak), while each
/// halving of the corners costs only another ring of triangles. Elsewhere the force error falls like size^6.
Resolution resolution_for(double tolerance);

/// A finer one, for bars that are `too_wide` (> 1) times what is allowed.
Resolution finer(const Resolution& resolution, double too_wide);

}  // namespace coilpull
