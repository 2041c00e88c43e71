// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "materials/magnetic_law.hpp"

namespace coilpull {

/// The law that a published case names, from the parameters in its name: "froehlich Js=2.1 chi0=2000", also
/// arctan, langevin, brauer; and for the table of TEAM problem 13 the catalogue's curve of that steel.
/// @throws std::runtime_error  no such law
SoftLaw published_law(const std::string& words);

/// The law is the table of TEAM 13 steel, which is not ours between its points: see joined_reason.
bool is_joined_table(const std::string& words);
inline constexpr const char* joined_reason =
    "The source joins the points of the B-H table by straight lines and follows the problem's formulas above "
    "1.8 T; "
    "ours is one smooth curve through points of both. The exact answer for our curve is met.";

/// B [T] at a field [A/m]: the root of H(B) = h, by bisection to rounding.
double flux_density_at(const SoftLaw& law, double h_A_per_m);

}  // namespace coilpull
