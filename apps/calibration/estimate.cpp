// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/estimate.hpp"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

#include "apps/calibration/coverage.hpp"
#include "apps/calibration/fit_module.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

constexpr double confusing_correlation = 0.95;
constexpr double least_effect = 0.05;  // of a step on all numbers together, in sigma
constexpr double part_of_direction = 0.2;
constexpr int most_noise_rounds = 20;
constexpr double noise_settled = 1e-4;  // relative change of every estimated sigma

double degrees_of_freedom(const ResponseSurface& surface, const MeasuredNumbers& measured) {
  return static_cast<double>(measured.value.size() - surface.centre.size());
}

/// Noise of each column from its residuals, where it is not stated; per degree of freedom.
Eigen::VectorXd with_estimated_noise(const MeasuredNumbers& measured, const Eigen::VectorXd& residual,
                                     double share) {
  Eigen::VectorXd sigma = measured.sigma;
  for (Eigen::Index i = 0; i < sigma.size(); ++i) {
    if (!std::isnan(measured.sigma[i])) continue;
    double sum = 0, largest = 0;
    int count = 0;
    for (Eigen::Index j = 0; j < sigma.size(); ++j)
      if (measured.column[static_cast<std::size_t>(j)] == measured.column[static_cast<std::size_t>(i)]) {
        sum += residual[j] * residual[j], ++count;
        largest = std::max(largest, std::abs(measured.value[j]));
      }
    sigma[i] = std::max(std::sqrt(sum / (count * share)), 1e-9 * largest + 1e-300);
  }
  return sigma;
}

Eigen::VectorXd with_bar(const Eigen::VectorXd& sigma, const Eigen::VectorXd& bar) {
  return (sigma.array().square() + (0.5 * bar).array().square()).sqrt();
}

struct Fitted {
  FitResult result;
  Eigen::VectorXd sigma;
};

Fitted fit_with_noise(const ResponseSurface& surface, const MeasuredNumbers& measured, double reach) {
  const double share = degrees_of_freedom(surface, measured) / static_cast<double>(measured.value.size());
  Eigen::VectorXd noise = with_estimated_noise(measured, surface.at_centre - measured.value, 1);
  Fitted fitted;
  for (int round = 0; round < most_noise_rounds; ++round) {
    fitted.sigma = with_bar(noise, surface.bar);
    fitted.result = fit({surface, measured.value, fitted.sigma, reach});
    const Eigen::VectorXd next =
        with_estimated_noise(measured, surface.at(fitted.result.u) - measured.value, share);
    const double change = (next - noise).cwiseQuotient(noise).cwiseAbs().maxCoeff();
    noise = next;
    if (change < noise_settled) break;
  }
  return fitted;
}

/// Parameters that take part in the direction that the measurements tell least of.
void name_open_direction(const Eigen::MatrixXd& effects, Estimate& made) {
  const Eigen::MatrixXd scaled = effects * effects.colwise().norm().cwiseInverse().asDiagonal();
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(scaled, Eigen::ComputeThinV);
  const Eigen::VectorXd open = svd.matrixV().rightCols(1);
  for (Eigen::Index k = 0; k < open.size(); ++k) {
    if (std::abs(open[k]) < part_of_direction) continue;
    made.half_width[k] = nan;
    for (Eigen::Index l = 0; l < k; ++l)
      if (std::abs(open[l]) >= part_of_direction)
        made.confused.push_back(
            {static_cast<std::size_t>(l), static_cast<std::size_t>(k), open[k] * open[l] > 0 ? 1.0 : -1.0});
  }
}

void judge_separation(const Eigen::MatrixXd& effects, const FitResult& result, const ResponseSurface& surface,
                      double factor, Estimate& made) {
  const Eigen::Index n = surface.centre.size();
  for (Eigen::Index k = 0; k < n; ++k)
    if (effects.col(k).norm() < least_effect) made.without_effect.push_back(static_cast<std::size_t>(k));
  if (result.covariance.size() == 0) {
    if (made.without_effect.empty()) name_open_direction(effects, made);
    return;
  }
  const Eigen::VectorXd deviation = result.covariance.diagonal().cwiseSqrt();
  made.half_width = factor * deviation.cwiseProduct(surface.step);
  made.correlation =
      deviation.cwiseInverse().asDiagonal() * result.covariance * deviation.cwiseInverse().asDiagonal();
  for (Eigen::Index k = 0; k < n; ++k)
    for (Eigen::Index l = 0; l < k; ++l)
      if (std::abs(made.correlation(k, l)) > confusing_correlation)
        made.confused.push_back(
            {static_cast<std::size_t>(l), static_cast<std::size_t>(k), made.correlation(k, l)});
  for (const std::size_t k : made.without_effect) made.half_width[static_cast<Eigen::Index>(k)] = nan;
}

}  // namespace

Estimate estimate(const ResponseSurface& surface, const MeasuredNumbers& measured, double reach) {
  const Fitted fitted = fit_with_noise(surface, measured, reach);
  const double freedom = degrees_of_freedom(surface, measured);
  const auto parameters = static_cast<std::size_t>(surface.centre.size());
  Estimate made;
  made.u = fitted.result.u;
  made.value = surface.parameters(made.u);
  made.half_width = Eigen::VectorXd::Constant(surface.centre.size(), nan);
  made.sigma = fitted.sigma;
  made.settled = fitted.result.settled;
  made.noise_estimated = measured.sigma.array().isNaN().any();
  const double sum = (surface.at(made.u) - measured.value).cwiseQuotient(fitted.sigma).squaredNorm();
  made.misfit = std::sqrt(sum / freedom);
  if (sum > largest_likely_sum(freedom)) made.widened = std::max(1.0, made.misfit);
  const double factor =
      made.noise_estimated ? coverage_factor(parameters, freedom) : coverage_factor(parameters);
  const Eigen::MatrixXd effects = fitted.sigma.cwiseInverse().asDiagonal() * surface.jacobian(made.u);
  judge_separation(effects, fitted.result, surface, factor * made.widened, made);
  return made;
}

}  // namespace coilpull
