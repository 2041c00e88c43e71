// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "materials/magnetic_law.hpp"

namespace coilpull {

/// The law with J(H) times the factor at every H, the saturation with it: a steel of another batch, or a
/// stack of sheets with the flux along them, of which the factor is steel, B = k (mu0 H + J) + (1 - k) mu0 H.
/// Nothing for a Brauer law, whose H(B) gives no such form.
/// @throws BadMaterial  when the law leaves what its kind allows
std::optional<SoftLaw> with_polarization(const SoftLaw& law, double factor);

}  // namespace coilpull
