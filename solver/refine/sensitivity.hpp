// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "meshing/mesh.hpp"
#include "solver/device/device.hpp"
#include "solver/field/newton.hpp"
#include "solver/measure/measurement.hpp"

namespace coilpull {

/// What a change of the device is called, part by part.
struct ChangeName {
  std::string part;      ///< of a body "post+plate", of a gap "rod to tube", of a current its circuit
  std::string quantity;  ///< "remanence", "inner radius", "z of the whole", ...
};

/// How the force answers to one number of the device.
struct Sensitivity {
  std::vector<ChangeName> of;      ///< several: faces of touching parts, which move together
  std::optional<Edge> place = {};  ///< of a face that the drawing has no key for, as drawn
  std::optional<double> present;   ///< the number now: [m], [T], [A], turns, or relative permeability
  bool is_length;                  ///< slope in N per metre; else in N per unit of relative change
  Measured slope;                  ///< its error: change from order p to order p + 1

  double usual_change() const { return is_length ? 1e-4 : 1e-2; }   ///< 0.1 mm, or 1 %
  double effect_N() const { return slope.value * usual_change(); }  ///< first order, of the usual change
  double effect_error_N() const { return slope.error * usual_change(); }
};

/// What moves the force at one point.
struct SensitivityList {
  double force_N = 0;               ///< on this mesh, order p + 1
  std::vector<Sensitivity> ranked;  ///< largest effect of the usual change first
  NewtonReport report;              ///< of the last field solved; without usable() the list is empty
};

/// Sensitivities of the axial force on the moving group by the adjoint: one solve for all of them, then an
/// integral each. Each is the derivative of the force of this mesh at order p + 1:
///   magnets     remanence, recoil permeability
///   steels      permeability of a straight law; else polarization: J at every H, the saturation with it
///   windings    turns at the same current; current of each circuit; with a background: its field
///   dimensions  one a face: radii and z grow, slanted faces move outward, arcs keep their centre, or, where
///               they round a corner, their neighbours' lines. Other lines of the drawing stay, touching
///               parts keep touching, windings keep their turns, moving parts their displacement
///   places      the displacement, and each body shifted along +z as a whole. The mesh follows smoothly: this
///               converges faster than the slope along the weight of the force (PairSolver::slopes)
///   gap         at the narrowest place between moving and fixed parts: an axial one grows by moving the
///               group away, another by moving the fixed face back. Left out where corners are nearest
/// Where the narrowest gap is a hair of the device, slopes along it converge last: watch their error.
/// @param mesh  of the device at this displacement   @param order  p
/// @throws what FieldSolver throws
SensitivityList sensitivities(const std::shared_ptr<const Mesh>& mesh, const Device& device,
                              double displacement, const Eigen::VectorXd& currents_A, int order,
                              double outer_ratio);

}  // namespace coilpull
