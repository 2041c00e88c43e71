// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/basis.hpp"

#include <doctest/doctest.h>

#include <Eigen/LU>

#include "tests/near.hpp"

using namespace coilpull;
using namespace coilpull::detail;

namespace {

Eigen::VectorXd values(int order, double xi, double eta) {
  Eigen::VectorXd value(basis_size(order));
  Eigen::Matrix2Xd slope(2, basis_size(order));
  evaluate_basis(order, xi, eta, value, slope);
  return value;
}

}  // namespace

TEST_CASE("slopes of the basis are the derivatives of its values") {
  const double step =
      1e-6;  // central differences of polynomials of degree <= 6: error ~ step^2, rounding ~ 1e-10
  for (int order = 1; order <= highest_order; ++order) {
    Eigen::VectorXd value(basis_size(order));
    Eigen::Matrix2Xd slope(2, basis_size(order));
    evaluate_basis(order, 0.21, 0.37, value, slope);
    const Eigen::VectorXd by_xi =
        (values(order, 0.21 + step, 0.37) - values(order, 0.21 - step, 0.37)) / (2 * step);
    const Eigen::VectorXd by_eta =
        (values(order, 0.21, 0.37 + step) - values(order, 0.21, 0.37 - step)) / (2 * step);
    CHECK((slope.row(0).transpose() - by_xi).cwiseAbs().maxCoeff() < 1e-9);
    CHECK((slope.row(1).transpose() - by_eta).cwiseAbs().maxCoeff() < 1e-9);
  }
}

TEST_CASE("the basis of order p is the beginning of that of order p + 1") {
  for (int order = 1; order < highest_order; ++order)
    CHECK(values(order + 1, 0.3, 0.2).head(basis_size(order)) == values(order, 0.3, 0.2));
}

TEST_CASE("the basis of order p spans all polynomials of degree p") {
  // As many independent functions as monomials: the matrix of values at a grid of points has full rank.
  for (int order = 1; order <= highest_order; ++order) {
    Eigen::MatrixXd table(basis_size(order), basis_size(order));
    int row = 0;
    for (int i = 0; i <= order; ++i)
      for (int j = 0; i + j <= order; ++j)
        table.row(row++) = values(order, double(i) / order, double(j) / order);
    CHECK(Eigen::FullPivLU<Eigen::MatrixXd>(table).rank() == basis_size(order));
  }
}

TEST_CASE("functions of an edge vanish on the other two, those inside on all three") {
  const double at[3][2] = {{0.3, 0.0}, {0.7, 0.3}, {0.0, 0.6}};  // on edges (0,1), (1,2), (0,2)
  for (int on = 0; on < 3; ++on) {
    const Eigen::VectorXd value = values(highest_order, at[on][0], at[on][1]);
    for (int degree = 2; degree <= highest_order; ++degree)
      for (int k = 0; k < degree + 1; ++k) {
        const int function = basis_size(degree - 1) + k;
        if (k == on) continue;
        INFO("edge " << on << ", degree " << degree << ", function " << k);
        CHECK(std::abs(value[function]) < 1e-15);
      }
  }
}
