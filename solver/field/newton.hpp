// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <functional>

namespace coilpull {

/// One step of Newton's method, as it is told while it runs.
struct NewtonStep {
  int number;
  double remaining;  ///< see NewtonOptions::remaining_below
  double length;     ///< of the step taken, 1 = full
};

/// How Newton's method steps and when it stops.
struct NewtonOptions {
  int max_steps = 60;
  /// Done when sqrt(g'K^-1 g) <= remaining_below * sqrt(x'Sx + int H.B dV): the error of x in the norm of its
  /// own energy. The step that showed it is still taken, so what is left is about its square.
  double remaining_below = 1e-8;
  /// A tangent is kept for the next step while what remains falls at least to this part of it: a step without
  /// factorisation costs a third.
  double keep_tangent = 0.05;
  /// With a kept tangent the last step leaves not the square but remaining * (remaining / remaining before);
  /// steps go on until that is below this as well.
  double left_below = 1e-12;
  double slope_left = 0.5;  ///< a step t is accepted when |g(x + t d).d| <= slope_left * |g(x).d|
  double longest_step = 8;  ///< a step that still falls steeply is lengthened up to this
  int max_trials = 30;      ///< gradients spent on one step length
  std::function<void(const NewtonStep&)> on_step = {};
  std::function<bool()> out_of_time = {};  ///< asked after every step
};

enum class NewtonEnding {
  remaining_small,      ///< sqrt(g'K^-1 g) small enough
  steps_used_up,        ///< max_steps came first
  no_descent,           ///< max_trials gradients found no acceptable step length
  out_of_time,          ///< NewtonOptions::out_of_time said so
  tangent_not_positive  ///< a pivot <= 0 or not a number: the law or the mesh is wrong, not the physics
};

/// How a run of Newton's method ended.
struct NewtonReport {
  NewtonEnding ending = NewtonEnding::remaining_small;
  int steps = 0;
  double remaining = 0;  ///< at the end, see NewtonOptions::remaining_below
  bool usable() const { return ending == NewtonEnding::remaining_small; }
};

const char* words_for(NewtonEnding ending);  ///< for a person: "ran out of steps", ...

namespace detail {

/// A strictly convex energy to be minimised.
struct ConvexEnergy {
  /// Sets g to the gradient at x, keeps what the tangent needs, returns a measure of the energy, >= 0.
  std::function<double(const Eigen::VectorXd& x, Eigen::VectorXd& g)> gradient;
  /// Factorises the tangent K at the x of the last call of gradient; false: K is not positive definite.
  std::function<bool()> factorise;
  /// Solves K d = -g with the last factorised K.
  std::function<void(const Eigen::VectorXd& g, Eigen::VectorXd& d)> direction;
};

/// Newton's method with exact tangent. The step length is found by a bracketed secant (Illinois rule: Dowell
/// and Jarratt, BIT 11 (1971) 168) on the slope along the direction: slopes keep their digits where energy
/// differences have lost theirs. Never throws for numerics: the report says how it ended, x is the best
/// found.
NewtonReport minimise(const ConvexEnergy& energy, Eigen::VectorXd& x, const NewtonOptions& options);

}  // namespace detail
}  // namespace coilpull
