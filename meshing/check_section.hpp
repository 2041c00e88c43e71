// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/bad_section.hpp"
#include "meshing/section.hpp"

namespace coilpull {

/// Points of a drawing nearer than coincident * outer radius are one point; parts nearer than that touch.
inline constexpr double coincident = 1e-12;
/// Edges shorter, and gaps narrower, than thinnest * outer radius cannot be meshed and are refused.
inline constexpr double thinnest = 1e-7;

/// Checks a drawing without meshing it: finite numbers, r >= 0, closed counter-clockwise outlines with area,
/// no part that crosses itself, lies in or across another, nearly touches, or leaves the half circle.
/// @throws BadSection  the parts, the place and the amount in mm
void check_section(const Section& section);

}  // namespace coilpull
