// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "meshing/mesh.hpp"
#include "meshing/section.hpp"

namespace coilpull {

/// Parts in a half circle of 50 mm about z = 0, sizes 1 mm on their outlines, growing by 0.3, up to 8 mm.
Section in_air(std::vector<Region> parts, double size = 1e-3);

Outline ball(double radius, double z);        ///< two quarter arcs and the axis
Outline triangle(Point a, Point b, Point c);  ///< counter-clockwise
Region block(std::string name, double r_from, double r_to, double z_from, double z_to);  ///< in mm
/// A ring of round wire: two half turns between a corner and the one that faces it, in mm.
Region ring(std::string name, Point centre, Point corner);

/// Rod, winding, back plate, disc magnet: the parts of a small device, none touching.
Section rod_winding_magnet(double size = 1e-3);

double meshed_area(const Mesh& mesh, const std::string& region);  ///< [m^2]
int nodes_shared(const Mesh& mesh, const std::string& a, const std::string& b);
bool has_node(const Mesh& mesh, Point at);  ///< to the last bit
bool same_bits(const Mesh& a, const Mesh& b);

}  // namespace coilpull
