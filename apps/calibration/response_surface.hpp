// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <functional>
#include <string>
#include <vector>

namespace coilpull {

/// What the model says where something was measured.
struct Response {
  Eigen::VectorXd value;     ///< (measured)
  Eigen::VectorXd bar;       ///< (measured), numerical, same unit; 0 where the model has none
  std::string trouble = {};  ///< not empty: a value is missing, and why
};

/// The model at values of the parameters.
using Model = std::function<Response(const Eigen::VectorXd& parameters)>;

/// The model near a centre as a polynomial of second degree in u = (parameters - centre) / step:
///     f(u) = f0 + g u + u'Hu / 2,
/// through the centre, a step to either side along each parameter, and a step along each pair: a response
/// surface (Box and Wilson, J. R. Statist. Soc. B 13 (1951) 1).
struct ResponseSurface {
  Eigen::VectorXd centre, step;       ///< (parameters)
  Eigen::VectorXd at_centre, bar;     ///< (measured)
  Eigen::MatrixXd slope;              ///< g (measured, parameters)
  std::vector<Eigen::MatrixXd> bend;  ///< H: for each parameter (measured, parameters)
  std::string trouble = {};           ///< not empty: the model failed at one of the points

  Eigen::VectorXd at(const Eigen::VectorXd& u) const;
  Eigen::MatrixXd jacobian(const Eigen::VectorXd& u) const;  ///< df/du (measured, parameters)
  Eigen::VectorXd parameters(const Eigen::VectorXd& u) const { return centre + step.cwiseProduct(u); }
};

/// Asks the model 1 + 2n + n(n-1)/2 times for n parameters.
ResponseSurface response_surface(const Model& model, const Eigen::VectorXd& centre,
                                 const Eigen::VectorXd& step);

}  // namespace coilpull
