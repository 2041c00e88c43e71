// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

#include "meshing/outline.hpp"
#include "solver/field/field.hpp"

namespace coilpull {

/// Where a magnet stands that has left the common axis: first turned about the y axis through its pivot, then
/// shifted along x. There is nothing to choose in the direction: the field it stands in is axisymmetric.
struct Pose {
  double offset = 0;   ///< along +x [m]
  double tilt = 0;     ///< [rad], positive turns its +z end towards +x
  double pivot_z = 0;  ///< place on the axis it is turned about [m]
};

/// A magnet uniformly magnetised along its own axis: outline where it stands on the axis, polarization J [T].
struct AxialCharge {
  Outline outline;
  double polarization_T;
};

/// What a field does to the magnet: no force along y and no torque about x and z, by symmetry.
struct OffsetForce {
  double axial_N = 0;    ///< along +z
  double side_N = 0;     ///< along +x: positive draws it farther out
  double torque_Nm = 0;  ///< about +y through the shifted pivot: positive tilts it farther

  OffsetForce& operator+=(OffsetForce other);
};

using AxisymmetricField = std::function<FluxDensity(Point)>;

/// Force on a rigid magnet in a field B that it does not make itself, by the magnetic charge of its surface:
///   F = (1/mu0) closed integral (J.n) B dS,    T = (1/mu0) closed integral (J.n) (x - pivot) x B dS
/// (Jackson, Classical Electrodynamics, 3rd ed., section 5.9 C, and exercise 5.20 for the force on it).
/// With the field of coil and steel without the magnet this is exactly the current's part of the force, as
/// long as the steel is not near saturation and the recoil permeability is 1: in a linear device the coenergy
/// is L i^2/2 + i lambda + W, lambda = integral of M . (B of one ampere) by reciprocity; the magnet moves
/// only lambda and W. What the steel does to the magnet without current, the slopes of W, is not in it. Gauss
/// points along the outline, evenly spaced ones round it.
/// @param pieces  each edge of the outline is split into so many
/// @throws what the field throws
OffsetForce force_in_field(const AxialCharge& magnet, const Pose& pose, const AxisymmetricField& field,
                           int pieces = 4);

/// Points (r, z) that the magnet's surface passes in that pose, for a look at what it would run into.
std::vector<Point> surface_points(const Outline& magnet, const Pose& pose, int pieces = 4);

}  // namespace coilpull
