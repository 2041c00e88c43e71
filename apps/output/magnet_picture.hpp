// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/output/curves_picture.hpp"
#include "materials/magnet_material.hpp"

namespace coilpull {

/// B along the magnetisation against H from the coercivity to zero field: the recoil line at 20 degC and at
/// the highest temperature, with the knee; beyond it dashed, because there the line is left for good.
CurvesPicture magnet_picture(const MagnetMaterial& magnet);

}  // namespace coilpull
