// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/advice/drive.hpp"
#include "solver/device/operation.hpp"

namespace coilpull {

/// Whether it moves from rest at one displacement.
struct StartAt {
  double displacement;
  Measured off_N;  ///< force without current plus what pushes from outside; friction not in it
  std::optional<double> to_plus_A;   ///< the weakest current of the table's range that starts it towards +z
  std::optional<double> to_minus_A;  ///< and towards -z; none: a dead spot that way
  double plus_margin_N, minus_margin_N;  ///< best of all currents, less friction and bar; > 0: moves
};

/// What a residual gap holds.
struct HoldAt {
  double displacement;
  Measured off_N;                                             ///< magnetic force without current
  double push_N;                                              ///< from outside
  std::optional<Measured> remanent_plus_N, remanent_minus_N;  ///< without current, cores left magnetised
  std::vector<Measured>
      lets_go_A;  ///< currents at which magnetic force and outside balance; bar: force bar and remanence
  bool held_off;  ///< without current magnetic force and outside together press the way the force does
};

struct HoldingAdvice {
  double dry_friction_N;
  std::vector<StartAt> starts;
  std::vector<HoldAt> holds;
  std::vector<std::string> cores_without_remanence;  ///< no coercive field is stated: not in the bracket
  /// What the supply drives at first, and through a winding at its insulation's limit [A]; none: no supply or
  /// no wire is stated.
  std::optional<double> cold_A = {}, hot_A = {};
};

/// From rest: magnetic force, less its bar, and outside have to exceed dry friction.
std::vector<StartAt> starts_along(const DriveTable& drive, const Mechanics& mechanics);

/// Currents at which F + push = 0 at one displacement, straight lines between evenly spaced currents; an
/// eighth of the second difference, what a parabola leaves such a line by, widens the bar.
/// @param currents_A  rising  @param forces_N  one each
/// @param shift_N  what remanence may change: widens the bar
std::vector<Measured> balance_currents(const std::vector<double>& currents_A,
                                       const std::vector<Measured>& forces_N, double push_N, double shift_N);

}  // namespace coilpull
