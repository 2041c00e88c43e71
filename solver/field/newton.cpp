// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/newton.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {

const char* words_for(NewtonEnding ending) {
  switch (ending) {
    case NewtonEnding::remaining_small:
      return "converged";
    case NewtonEnding::steps_used_up:
      return "Newton's method ran out of steps";
    case NewtonEnding::no_descent:
      return "Newton's method found no step that lowers the energy";
    case NewtonEnding::out_of_time:
      return "it took longer than a row may take";
    case NewtonEnding::tangent_not_positive:
      return "the tangent matrix is not positive definite";
  }
  return "unknown";
}

namespace detail {
namespace {

/// Where the slope along the search direction has fallen far enough; leaves the gradient of that point in g.
class LineSearch {
public:
  LineSearch(const ConvexEnergy& energy, const NewtonOptions& options) : energy_(energy), options_(options) {}

  /// Returns the accepted step length, or 0 when none was found. x_new, g and measure belong to it.
  double search(const Eigen::VectorXd& x, const Eigen::VectorXd& d, double slope_at_0, Eigen::VectorXd& x_new,
                Eigen::VectorXd& g, double& measure) {
    double low = 0, slope_low = slope_at_0, high = 0, slope_high = 0, t = 1;
    bool bracketed = false;
    for (int trial = 0; trial < options_.max_trials; ++trial) {
      x_new = x + t * d;
      measure = energy_.gradient(x_new, g);
      const double slope = g.dot(d);
      if (!std::isfinite(slope)) return 0;
      if (std::abs(slope) <= options_.slope_left * std::abs(slope_at_0)) return t;
      if (slope < 0) {
        if (!bracketed && t >= options_.longest_step) return t;
        if (bracketed && low_moved_last_) slope_high *= 0.5;  // Illinois: the other end stood still twice
        low = t, slope_low = slope, low_moved_last_ = true;
      } else {
        if (bracketed && !low_moved_last_) slope_low *= 0.5;
        high = t, slope_high = slope, bracketed = true, low_moved_last_ = false;
      }
      if (!bracketed)
        t = std::min(2 * t, options_.longest_step);
      else if (slope_high > 100 * -slope_low)
        t = low + 0.1 * (high - low);  // a wall: a secant would creep
      else
        t = low + (high - low) * slope_low / (slope_low - slope_high);
    }
    return 0;
  }

private:
  const ConvexEnergy& energy_;
  const NewtonOptions& options_;
  bool low_moved_last_ = false;
};

}  // namespace

NewtonReport minimise(const ConvexEnergy& energy, Eigen::VectorXd& x, const NewtonOptions& options) {
  NewtonReport report;
  Eigen::VectorXd g(x.size()), d(x.size()), x_new(x.size());
  double measure = energy.gradient(x, g);
  bool kept = false;  // the tangent is that of an earlier step
  for (;;) {
    if (g.size() == 0 || g.cwiseAbs().maxCoeff() == 0) return report;
    if (!kept && !energy.factorise()) {
      report.ending = NewtonEnding::tangent_not_positive;
      return report;
    }
    energy.direction(g, d);
    const double slope = g.dot(d);  // = -g'K^-1 g
    if (!(slope < 0)) {
      report.ending = NewtonEnding::tangent_not_positive;
      return report;
    }
    const double before = report.remaining;
    report.remaining = measure > 0 ? std::sqrt(-slope / measure) : 1.0;
    if (kept && report.remaining > options.keep_tangent * before) {
      kept = false;  // too slow: the same point again, with its own tangent
      report.remaining = before;
      continue;
    }
    ++report.steps;
    const double left_after =
        kept ? report.remaining * report.remaining / before : 0;  // linear, not quadratic
    if (report.remaining <= options.remaining_below && left_after <= options.left_below) {
      x += d;
      if (options.on_step) options.on_step({report.steps, report.remaining, 1});
      report.ending = NewtonEnding::remaining_small;
      return report;
    }
    if (report.steps > options.max_steps) {
      report.ending = NewtonEnding::steps_used_up;
      return report;
    }
    const double length = LineSearch(energy, options).search(x, d, slope, x_new, g, measure);
    if (length == 0) {
      report.ending = NewtonEnding::no_descent;
      return report;
    }
    x.swap(x_new);
    kept = length == 1;
    if (options.on_step) options.on_step({report.steps, report.remaining, length});
    if (options.out_of_time && options.out_of_time()) {
      report.ending = NewtonEnding::out_of_time;
      return report;
    }
  }
}

}  // namespace detail
}  // namespace coilpull
