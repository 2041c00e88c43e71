// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace coilpull {

/// A value and the half width of its numerical error bar, in the same unit.
struct Measured {
  double value;
  double error;
};

/// How a row of the table ended. Everything but `ok` is a warning that the row's numbers carry.
enum class RowStatus {
  ok,
  tolerance_not_met,  ///< the bar is wider than tolerance * largest |force|; value and bar stand
  not_converged,      ///< Newton gave up: values are NaN
  meshing_failed,     ///< no mesh at this displacement: values are NaN
  stopped             ///< the person stopped the run before this row: values are NaN
};

const char* word_for(RowStatus status);  ///< "ok", "tolerance_not_met", ...

/// B at a sensor, or its mean over the face.
struct SensorField {
  double br_T, bz_T;
};

/// How far a magnet is driven: flux density along its magnetisation. The lowest of all has no limit at a
/// sharp corner and would only tell the size of the mesh.
struct MagnetState {
  double b_p01_T;    ///< 1 % of its volume is below
  double b_mean_T;   ///< mean over its volume
  double past_knee;  ///< fraction of its volume below the knee; NaN: the knee is not known
  bool changed_for_good() const { return past_knee > changed_fraction; }
  static constexpr double changed_fraction = 0.01;  ///< less is the edge of a corner
};

/// What stated ranges of the input leave of a force.
struct ForceRange {
  double low_N, high_N;
};

/// Slopes at a point of the table, from the tangent of the enriched field: exact for its mesh, without a bar.
struct Slopes {
  double force_per_displacement;                ///< dF/dz [N/m]
  std::vector<double> force_per_current;        ///< dF/di_k = d(linkage_k)/dz [N/A], one per circuit
  std::vector<std::vector<double>> inductance;  ///< d(linkage_k)/di_l [H], incremental
};

/// What is known of the device at one displacement and one set of currents.
struct Measurement {
  double displacement;               ///< [m]
  double clearance;                  ///< smallest distance of moving to fixed parts [m]; NaN without both
  std::vector<double> currents_A;    ///< one per circuit
  Measured force_N;                  ///< axial, on the moving group, positive along +z
  std::vector<Measured> linkage_Wb;  ///< one per circuit, turns counted, the magnets' share included
  double coenergy_J;                 ///< sum(linkage * current) - stored energy
  std::vector<double> b_p99_T;       ///< one per core: |B| that 99 % of its volume stays below
  std::vector<SensorField> sensors;  ///< one per sensor
  std::vector<MagnetState> magnets = {};  ///< one per magnet; empty where nothing is usable
  std::optional<ForceRange> spread = {};  ///< when asked for
  std::optional<Slopes> slopes = {};      ///< when asked for, and the row is usable
  std::vector<double> body_force_N =
      {};  ///< when asked for: axial force on each body, see measure/bodies.hpp
  std::vector<double> approximate_force_N = {};  ///< by each of ForceTable::approximations
  int newton_steps = 0;                          ///< all steps spent on this row
  RowStatus status = RowStatus::ok;
  std::string why = {};  ///< what to tell the person when status is not ok
};

}  // namespace coilpull
