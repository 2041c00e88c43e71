// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "materials/catalogue.hpp"

namespace coilpull {

/// A line a material: name, how sure it is, family; steels, pairs of bounds, magnets.
std::string catalogue_text(const Catalogue& catalogue);

/// All that a material's file says, and its permeability at a few fields.
std::string soft_material_text(const SoftMaterial& steel);

/// All that a magnet's file says, and its recoil line at 20 degC and at its highest temperature.
std::string magnet_material_text(const MagnetMaterial& magnet);

}  // namespace coilpull
