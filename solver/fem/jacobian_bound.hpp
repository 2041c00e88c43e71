// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/fem/geometry.hpp"

namespace coilpull::detail {

/// Bounds of a triangle's Jacobian determinant over the whole triangle [m^2], twice the area when straight;
/// negative throughout where rising node numbers run clockwise.
struct JacobianBound {
  double least, most;
};

/// The least and the largest Bernstein coefficient: a polynomial lies in the convex hull of its coefficients.
/// Of a triangle of degree m the determinant has degree 2(m - 1).
/// Farin, Curves and Surfaces for CAGD, 5th ed. 2002, ch. 17; for meshes: Johnen, Remacle and Geuzaine,
/// J. Comput. Phys. 233 (2013) 359.
JacobianBound jacobian_bound(const Geometry& geometry, int triangle);

/// Whether the determinant keeps one sign: true is a proof. Where the coefficients leave it open the triangle
/// is quartered, up to 5 times; what is open then is within 1e-3 of vanishing, and counts as false.
bool keeps_orientation(const Geometry& geometry, int triangle);

}  // namespace coilpull::detail
