// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "meshing/outline.hpp"

namespace coilpull {

// Closed forms of coaxial circular filaments, and their means over rectangular sections by quadrature.
// Nothing here knows of finite elements; the tests hold these against published figures before they lean on
// them.

/// Mutual inductance [H] of rings of radii a and b at axial distance d, not the same ring:
///     M = mu0 sqrt(ab) [(2/k - k) K(k) - (2/k) E(k)],   k^2 = 4ab / ((a+b)^2 + d^2).
/// Maxwell, A Treatise on Electricity and Magnetism, art. 701.
double ring_inductance(double a, double b, double d);

/// dM/dd [H/m]: the force on the upper ring over the product of both currents, negative for attraction.
double ring_inductance_slope(double a, double b, double d);

/// Gauss and Legendre's rule on (0, 1); the weights sum to 1, so that sums are means.
struct MeanRule {
  std::vector<double> at, weight;
};
MeanRule mean_rule(int points);

/// Rule for a function with a logarithm at 0: panels that shrink to 0 by a factor 0.15, `points` in each.
MeanRule mean_rule_towards_zero(int points);

using PairFunction = double (*)(double a, double b, double d);

/// Mean of f(a, b, d) over all pairs of points of two sections that do not touch; d counts from first to
/// second.
double mean_over_sections(PairFunction f, const Box& first, const Box& second, int points);

/// Self-inductance of one turn spread evenly over a section: the mean of M over all pairs of its points. The
/// logarithm at coinciding points is met with graded panels.
double section_self_inductance(const Box& section);

/// Self-inductance of one turn spread evenly over a cylindrical sheet.
double sheet_self_inductance(double radius, double length);

/// B_z on the axis, at a height above the middle, of one ampere-turn spread over a section, by the closed
/// form
///     mu0 J/2 [u ln((Ro + sqrt(Ro^2 + u^2)) / (Ri + sqrt(Ri^2 + u^2)))]  from u = z - l/2 to z + l/2.
double axis_field_of_section(double inner_radius, double outer_radius, double length, double height);

/// Axial force [N] on an axially magnetised cylinder of recoil permeability 1 by a ring of 1 A in the plane
/// z = 0: the cylinder is a sheet of Br/mu0 amperes per metre, and dM/dd integrates to M at its two ends.
double force_on_cylinder(double radius, double z_from, double z_to, double remanence_T, double ring_radius);

}  // namespace coilpull
