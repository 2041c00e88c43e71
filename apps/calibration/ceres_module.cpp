// SPDX-License-Identifier: GPL-3.0-or-later
#include <ceres/ceres.h>
#include <glog/logging.h>

#include <utility>
#include <vector>

#include "apps/calibration/fit_module.hpp"

namespace coilpull {
namespace {

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Residuals (f(u) - measured) / sigma with their exact slopes.
class Residuals : public ceres::CostFunction {
public:
  explicit Residuals(const FitProblem& problem) : problem_(problem) {
    set_num_residuals(static_cast<int>(problem.measured.size()));
    mutable_parameter_block_sizes()->push_back(static_cast<int>(problem.surface.centre.size()));
  }

  bool Evaluate(const double* const* parameters, double* residuals, double** jacobians) const override {
    const Eigen::Index n = problem_.surface.centre.size(), m = problem_.measured.size();
    const Eigen::VectorXd u = Eigen::Map<const Eigen::VectorXd>(parameters[0], n);
    Eigen::Map<Eigen::VectorXd>(residuals, m) =
        (problem_.surface.at(u) - problem_.measured).cwiseQuotient(problem_.sigma);
    if (jacobians && jacobians[0])
      Eigen::Map<RowMajor>(jacobians[0], m, n) =
          problem_.sigma.cwiseInverse().asDiagonal() * problem_.surface.jacobian(u);
    return true;
  }

private:
  const FitProblem& problem_;
};

FitResult least_squares(const FitProblem& problem) {
  FLAGS_minloglevel = google::GLOG_FATAL;  // what the library has to say is in the result
  const Eigen::Index n = problem.surface.centre.size();
  FitResult result;
  result.u = Eigen::VectorXd::Zero(n);
  ceres::Problem least;
  least.AddResidualBlock(new Residuals(problem), nullptr, result.u.data());
  for (int k = 0; k < n; ++k) {
    least.SetParameterLowerBound(result.u.data(), k, -problem.reach);
    least.SetParameterUpperBound(result.u.data(), k, problem.reach);
  }
  ceres::Solver::Options options;
  options.linear_solver_type = ceres::DENSE_QR;
  options.logging_type = ceres::SILENT;
  options.num_threads = 1;
  options.max_num_iterations = 200;
  options.function_tolerance = 1e-14;  // of the sum: far below what noise moves it
  options.parameter_tolerance = 1e-10;
  ceres::Solver::Summary summary;
  ceres::Solve(options, &least, &summary);
  if (!summary.IsSolutionUsable()) throw std::runtime_error(summary.message);
  result.settled = summary.termination_type == ceres::CONVERGENCE;

  ceres::Covariance::Options how;
  how.algorithm_type = ceres::DENSE_SVD;
  how.min_reciprocal_condition_number = 1e-12;  // of J'J, singular values squared
  ceres::Covariance covariance(how);
  const std::vector<std::pair<const double*, const double*>> all = {{result.u.data(), result.u.data()}};
  if (!covariance.Compute(all, &least)) return result;
  RowMajor block(n, n);
  covariance.GetCovarianceBlock(result.u.data(), result.u.data(), block.data());
  result.covariance = block;
  return result;
}

}  // namespace
}  // namespace coilpull

extern "C" bool coilpull_fit(const coilpull::FitProblem& problem, coilpull::FitResult& result,
                             std::string& trouble) {
  try {
    result = coilpull::least_squares(problem);
    return true;
  } catch (const std::exception& e) {
    trouble = e.what();
    return false;
  }
}
