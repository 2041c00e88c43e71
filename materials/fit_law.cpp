// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/fit_law.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"

namespace coilpull {

namespace {

// The search takes norms by Eigen's stableNorm(), which copies a vector by blocks into such an array on the
// stack and reads it as one that lies as vectors on the heap do.
static_assert(alignof(Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 4096, 1>) >=
                  Eigen::internal::evaluator<Eigen::VectorXd>::Alignment,
              "EIGEN_MAX_STATIC_ALIGN_BYTES is below EIGEN_MAX_ALIGN_BYTES: see coilpull_eigen_arrays");

using Points = std::vector<BhCurve::Point>;

/// Keys of a law in the order of the unknowns, and where the search starts.
struct Model {
  std::string law;
  std::vector<std::string> keys;
  std::vector<double> start;
};

double largest_polarization(const Points& points) {
  double largest = 0;
  for (const auto& [h, b] : points) largest = std::max(largest, b - mu0 * h);
  return largest;
}

/// H where the points first pass half of the largest polarization.
double half_field(const Points& points) {
  const double half = 0.5 * largest_polarization(points);
  for (const auto& [h, b] : points)
    if (h > 0 && b - mu0 * h >= half) return h;
  return points.back().h_A_per_m;
}

Model model_for(const std::string& law, const Points& points) {
  const double js = 1.02 * largest_polarization(points), ha = half_field(points);
  if (law == "froehlich") return {law, {"saturation_polarization_T", "half_field_A_per_m"}, {js, ha}};
  if (law == "langevin") return {law, {"saturation_polarization_T", "shape_field_A_per_m"}, {js, 0.55 * ha}};
  if (law == "arctangent")
    return {law, {"saturation_polarization_T", "initial_susceptibility"}, {js, 2 * js / (pi * mu0 * ha)}};
  if (law == "brauer") return {law, {"k1", "k2", "k3"}, {5, 2.2, 0.5 * ha / std::max(0.5 * js, 0.1)}};
  std::string allowed;
  for (const std::string& each : laws_to_fit()) allowed += (allowed.empty() ? "" : ", ") + each;
  throw BadMaterial("law", "law = \"" + law + "\": cannot be fitted. Allowed: " + allowed);
}

LawNumbers numbers_at(const Model& model, const Eigen::VectorXd& logarithms) {
  LawNumbers numbers{model.law, {}, {}, {}};
  for (std::size_t k = 0; k < model.keys.size(); ++k)
    numbers.numbers[model.keys[k]] = std::exp(logarithms[static_cast<Eigen::Index>(k)]);
  return numbers;
}

/// f(x) = B_law(H_i; e^x) - B_i. Where the numbers leave what a law allows, far off.
struct Residuals {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  // NOLINTNEXTLINE(readability-identifier-naming): Eigen asks for these names
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  const Model& model;
  const Points& points;

  int inputs() const { return static_cast<int>(model.keys.size()); }
  int values() const { return static_cast<int>(points.size()); }
  int operator()(const Eigen::VectorXd& x, Eigen::VectorXd& f) const {
    try {
      const SoftLaw law = make_law(numbers_at(model, x));
      for (Eigen::Index i = 0; i < f.size(); ++i) {
        const auto& [h, b] = points[static_cast<std::size_t>(i)];
        f[i] = flux_density(law, h) - b;
      }
    } catch (const BadMaterial&) {
      f.setConstant(1e3);
    }
    return 0;
  }
};

}  // namespace

std::vector<std::string> laws_to_fit() { return {"froehlich", "langevin", "arctangent", "brauer"}; }

LawFit fit_law(const std::string& law, const Points& points) {
  const Model model = model_for(law, points);
  const auto above_zero = std::count_if(points.begin(), points.end(),
                                        [](const BhCurve::Point& point) { return point.h_A_per_m > 0; });
  if (above_zero < static_cast<std::ptrdiff_t>(model.keys.size()))
    throw BadMaterial("law", "law = \"" + law + "\": needs at least " + std::to_string(model.keys.size()) +
                                 " points above zero");
  Eigen::VectorXd x(static_cast<Eigen::Index>(model.start.size()));
  for (Eigen::Index k = 0; k < x.size(); ++k) x[k] = std::log(model.start[static_cast<std::size_t>(k)]);
  Eigen::NumericalDiff<Residuals, Eigen::Central> residuals(Residuals{model, points});
  Eigen::LevenbergMarquardt<decltype(residuals)> search(residuals);
  search.parameters.xtol = 1e-12;
  search.parameters.ftol = 1e-14;
  search.parameters.maxfev = 2000;
  const auto ending = search.minimize(x);

  const LawNumbers numbers = numbers_at(model, x);
  LawFit fit{numbers, make_law(numbers), std::vector<double>(points.size())};
  double sum = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double r = flux_density(fit.law, points[i].h_A_per_m) - points[i].b_T;
    fit.residual_T[i] = r;
    sum += r * r;
    fit.largest_T = std::max(fit.largest_T, std::abs(r));
  }
  fit.rms_T = std::sqrt(sum / static_cast<double>(points.size()));
  fit.settled = ending != Eigen::LevenbergMarquardtSpace::TooManyFunctionEvaluation &&
                ending != Eigen::LevenbergMarquardtSpace::ImproperInputParameters;
  return fit;
}

}  // namespace coilpull
