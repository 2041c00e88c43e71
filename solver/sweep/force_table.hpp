// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/measure/measurement.hpp"
#include "solver/sweep/energy_audit.hpp"
#include "solver/sweep/mesh_origin.hpp"

namespace coilpull {

/// The answer: a row for every displacement (slow) and set of currents (fast), in the device's order.
struct ForceTable {
  std::vector<std::string> circuits;
  std::vector<std::string> cores;
  std::vector<std::string> sensors;
  std::vector<std::string> magnets = {};
  std::vector<std::string> bodies =
      {};  ///< of Measurement::body_force_N; parts that touch are one: "post+plate"
  std::vector<std::string> approximations = {};  ///< of Measurement::approximate_force_N, by word_for()
  std::vector<Measurement> rows;                 ///< displacements.size() * currents.size()
  std::size_t currents_per_displacement = 0;

  double peak_force_N = 0;         ///< largest |force| of the usable rows
  double tolerance_asked = 0;      ///< fraction of peak_force_N
  double tolerance_reached = 0;    ///< widest force bar of the usable rows over max(peak, 1e-9 N)
  double order_ratio = 0;          ///< b: how much smaller each order's change is than the one before
  double safety_where_rough = 0;   ///< what changes from order to order where the field is rough and smooth
  double safety_where_smooth = 0;  ///< are multiplied by to make bars
  double mesh_scatter_N = 0;       ///< rms change of the force on independent meshes
  EnergyAudit audit = {};          ///< of five rows, see there
  std::vector<MeshOrigin> meshes = {};  ///< one per displacement
  int order = 0;                        ///< polynomial order of the published values
  int triangles_least = 0;              ///< of the meshes used
  int triangles_most = 0;
  int unknowns_most = 0;
};

}  // namespace coilpull
