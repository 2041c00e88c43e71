// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/calibrate.hpp"

#include <limits>

namespace coilpull {

Calibration calibrate(const Model& model, const Eigen::VectorXd& start, const Eigen::VectorXd& step,
                      const MeasuredNumbers& measured, const CalibrationOptions& options) {
  Calibration made;
  Eigen::VectorXd centre = start, steps = step, asked;
  Response answer;
  const Model remembering = [&](const Eigen::VectorXd& parameters) {
    return asked.size() > 0 && parameters == asked ? answer : model(parameters);
  };
  while (made.rounds < options.most_rounds) {
    const ResponseSurface surface = response_surface(remembering, centre, steps);
    made.trouble = surface.trouble;
    if (!made.trouble.empty()) return made;
    if (++made.rounds == 1) made.before = surface.at_centre;
    made.estimate = estimate(surface, measured, options.reach);
    asked = made.estimate.value;
    answer = model(asked);
    made.trouble = answer.trouble;
    if (!made.trouble.empty()) return made;
    made.after = answer.value;
    made.surface_miss =
        (answer.value - surface.at(made.estimate.u)).cwiseQuotient(made.estimate.sigma).cwiseAbs().maxCoeff();
    const bool in_range = made.estimate.u.cwiseAbs().maxCoeff() <= 1;
    made.settled = made.estimate.settled && in_range && made.surface_miss <= options.good_surface;
    if (made.settled) break;
    if (made.estimate.correlation.size() == 0) break;  // an open direction leads nowhere
    centre = made.estimate.value;
    if (in_range) steps *= 0.5;
  }
  return made;
}

}  // namespace coilpull
