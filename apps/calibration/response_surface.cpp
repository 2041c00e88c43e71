// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/response_surface.hpp"

namespace coilpull {

Eigen::VectorXd ResponseSurface::at(const Eigen::VectorXd& u) const {
  Eigen::VectorXd value = at_centre + slope * u;
  for (Eigen::Index k = 0; k < u.size(); ++k) value += 0.5 * u[k] * (bend[static_cast<std::size_t>(k)] * u);
  return value;
}

Eigen::MatrixXd ResponseSurface::jacobian(const Eigen::VectorXd& u) const {
  Eigen::MatrixXd slopes = slope;
  for (Eigen::Index k = 0; k < u.size(); ++k) slopes.col(k) += bend[static_cast<std::size_t>(k)] * u;
  return slopes;
}

ResponseSurface response_surface(const Model& model, const Eigen::VectorXd& centre,
                                 const Eigen::VectorXd& step) {
  const Eigen::Index n = centre.size();
  ResponseSurface surface{centre, step, {}, {}, {}, {}};
  const auto ask = [&](const Eigen::VectorXd& u) {
    if (!surface.trouble.empty()) return Response{surface.at_centre, surface.bar};
    const Response response = model(surface.parameters(u));
    surface.trouble = response.trouble;
    return response;
  };
  const auto unit = [&](Eigen::Index k) { return Eigen::VectorXd(Eigen::VectorXd::Unit(n, k)); };
  const Response middle = ask(Eigen::VectorXd::Zero(n));
  surface.at_centre = middle.value;
  surface.bar = middle.bar;
  const Eigen::Index measured = middle.value.size();
  surface.slope.resize(measured, n);
  surface.bend.assign(static_cast<std::size_t>(n), Eigen::MatrixXd::Zero(measured, n));
  std::vector<Eigen::VectorXd> ahead;
  for (Eigen::Index k = 0; k < n; ++k) {
    ahead.push_back(ask(unit(k)).value);
    const Eigen::VectorXd behind = ask(-unit(k)).value;
    surface.slope.col(k) = 0.5 * (ahead.back() - behind);
    surface.bend[static_cast<std::size_t>(k)].col(k) = ahead.back() + behind - 2 * middle.value;
  }
  for (Eigen::Index k = 0; k < n; ++k)
    for (Eigen::Index l = 0; l < k; ++l) {
      const auto first = static_cast<std::size_t>(k), second = static_cast<std::size_t>(l);
      const Eigen::VectorXd both = ask(unit(k) + unit(l)).value;
      // f(u_k + u_l) of the polynomial, solved for H_kl
      const Eigen::VectorXd mixed = both - ahead[first] - ahead[second] + middle.value;
      surface.bend[first].col(l) = mixed;
      surface.bend[second].col(k) = mixed;
    }
  return surface;
}

}  // namespace coilpull
