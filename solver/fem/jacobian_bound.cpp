// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/jacobian_bound.hpp"

#include <Eigen/LU>
#include <array>
#include <cmath>
#include <memory>
#include <mutex>

namespace coilpull::detail {
namespace {

constexpr int most_quarterings = 5;

/// A part of the reference triangle: (xi, eta) = origin + size (s, t), turned by half a turn when size < 0.
struct Part {
  double xi, eta, size;
};

int determinant_degree(int degree) { return 2 * (degree - 1); }

/// The domain points (i, j)/n of Bernstein polynomials of degree n, and the way from values there to
/// coefficients.
struct BernsteinTable {
  Eigen::Matrix2Xd points;
  Eigen::MatrixXd from_values;
};

BernsteinTable make_table(int n) {
  BernsteinTable table;
  const int size = basis_size(n);
  table.points.resize(2, size);
  Eigen::MatrixXd values(size, size);  // row: point, column: polynomial
  int row = 0;
  for (int a = 0; a <= n; ++a)
    for (int b = 0; a + b <= n; ++b, ++row) {
      const double s = n > 0 ? double(a) / n : 1. / 3, t = n > 0 ? double(b) / n : 1. / 3;
      table.points.col(row) << s, t;
      int column = 0;
      for (int i = 0; i <= n; ++i)
        for (int j = 0; i + j <= n; ++j, ++column) {
          const int k = n - i - j;
          const double choices =
              std::tgamma(n + 1) / std::tgamma(i + 1) / std::tgamma(j + 1) / std::tgamma(k + 1);
          values(row, column) = choices * std::pow(s, i) * std::pow(t, j) * std::pow(1 - s - t, k);
        }
    }
  table.from_values = values.inverse();
  return table;
}

const BernsteinTable& bernstein_table(int n) {
  constexpr int most = 2 * (highest_order - 1);
  static std::array<std::once_flag, most + 1> made;
  static std::array<std::unique_ptr<const BernsteinTable>, most + 1> tables;
  std::call_once(made.at(n), [&] { tables[n] = std::make_unique<BernsteinTable>(make_table(n)); });
  return *tables[n];
}

/// (r, z) coefficients of one triangle, row = basis function.
Eigen::MatrixX2d shape_of(const Geometry& geometry, int triangle) {
  const int size = basis_size(geometry.dofs.order());
  int dofs[basis_size(highest_order)];
  geometry.dofs.of_triangle(triangle, dofs);
  Eigen::MatrixX2d shape(size, 2);
  for (int i = 0; i < size; ++i) shape.row(i) = geometry.coefficients.col(dofs[i]).transpose();
  return shape;
}

Eigen::VectorXd bernstein_coefficients(const Eigen::MatrixX2d& shape, int degree, const Part& part) {
  const BernsteinTable& table = bernstein_table(determinant_degree(degree));
  Eigen::VectorXd value(shape.rows()), determinant(table.points.cols());
  Eigen::Matrix2Xd slope(2, shape.rows());
  for (Eigen::Index q = 0; q < determinant.size(); ++q) {
    const double xi = part.xi + part.size * table.points(0, q),
                 eta = part.eta + part.size * table.points(1, q);
    evaluate_basis(degree, xi, eta, value, slope);
    determinant[q] = (slope * shape).determinant();
  }
  return table.from_values * determinant;
}

/// Corners are values of the determinant: theirs are the first, the n-th and the last coefficient.
bool one_sign(const Eigen::MatrixX2d& shape, int degree, const Part& part, double sign, int quarterings) {
  const Eigen::VectorXd signed_by = sign * bernstein_coefficients(shape, degree, part);
  if (signed_by.minCoeff() > 0) return true;
  const Eigen::Index last = signed_by.size() - 1;
  for (const Eigen::Index corner : {Eigen::Index{0}, Eigen::Index{determinant_degree(degree)}, last})
    if (!(signed_by[corner] > 0)) return false;
  if (quarterings == 0) return false;
  const double half = part.size / 2;
  for (const Part& quarter :
       {Part{part.xi, part.eta, half}, Part{part.xi + half, part.eta, half},
        Part{part.xi, part.eta + half, half}, Part{part.xi + half, part.eta + half, -half}})
    if (!one_sign(shape, degree, quarter, sign, quarterings - 1)) return false;
  return true;
}

}  // namespace

JacobianBound jacobian_bound(const Geometry& geometry, int triangle) {
  const Eigen::VectorXd coefficients =
      bernstein_coefficients(shape_of(geometry, triangle), geometry.dofs.order(), {0, 0, 1});
  return {coefficients.minCoeff(), coefficients.maxCoeff()};
}

bool keeps_orientation(const Geometry& geometry, int triangle) {
  const Eigen::MatrixX2d shape = shape_of(geometry, triangle);
  const Eigen::Matrix2d sides{{shape(1, 0) - shape(0, 0), shape(1, 1) - shape(0, 1)},
                              {shape(2, 0) - shape(0, 0), shape(2, 1) - shape(0, 1)}};
  const double sign = sides.determinant() > 0 ? 1 : -1;  // of the straight triangle
  return one_sign(shape, geometry.dofs.order(), {0, 0, 1}, sign, most_quarterings);
}

}  // namespace coilpull::detail
