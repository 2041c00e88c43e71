// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/output/section_view.hpp"
#include "solver/field/sample.hpp"

namespace coilpull {

/// |B| in colour, lines of equal flux, the outlines of the parts; axes in mm.
/// @param below  the quieter line under the title: which point this is
Canvas draw_field(const FieldSample& sample, const Device& device, double displacement,
                  const std::string& below, Halves halves = Halves::both);

}  // namespace coilpull
