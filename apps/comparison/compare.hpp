// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/device/device.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// A number that is known between two bounds: error bars, and the two laws of a pair.
struct Between {
  double low, high;
  double middle() const { return 0.5 * (low + high); }
};

/// What a candidate comes to. Empty: the table does not tell.
struct Merits {
  std::optional<Between> peak_N;         ///< largest |force| of the table
  std::optional<Between> off_N;          ///< largest |force| with every current 0
  std::optional<Between> stroke_work_J;  ///< see stroke_work
  std::optional<Between> full_A;  ///< see full_current; high is infinite when one law of a pair is never full
  bool changed_for_good = false;  ///< some row drives a magnet past its knee
};

/// A solved candidate: one table, or those of the weak and the strong bound.
struct SolvedCandidate {
  std::string name;
  std::vector<Device> devices;
  std::vector<ForceTable> tables;
};

Merits merits_of(const SolvedCandidate& candidate);

/// The most work that the force does on the moving group along the stroke in one direction, the currents
/// kept: the integral of the force where it pushes that way, trapezoids between the rows, the most of all
/// sets of currents. Its bar is the integral of the bars.
std::optional<Measured> stroke_work(const ForceTable& table);

/// The weakest current of a circuit, the others off, at which 1 % of the volume of some core passes the flux
/// density where the core has `full_share` of its saturation polarization, at any displacement; linear
/// between rows. 0: full without current. Nothing: never in this table, or no core that saturates.
std::optional<double> full_current(const Device& device, const ForceTable& table);
inline constexpr double full_share = 0.9;

/// A difference inside the bars is none: the ranges overlap.
bool differ(const Between& a, const Between& b);

/// Numbers of candidates from the largest to the smallest middle (low end, where the other is infinite);
/// those without a number are left out.
std::vector<std::size_t> ranked(const std::vector<std::optional<Between>>& values);

}  // namespace coilpull
