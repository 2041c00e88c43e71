// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/outer_boundary.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"

namespace coilpull::detail {
namespace {

/// P_n^1(cos theta) for n = 1 .. size, upward recurrence (stable for the order 1 and growing n).
void legendre_1(double cosine, double sine, Eigen::VectorXd& p) {
  p[0] = sine;
  if (p.size() > 1) p[1] = 3 * cosine * sine;
  for (int n = 2; n < p.size(); ++n) p[n] = ((2 * n + 1) * cosine * p[n - 1] - (n + 1) * p[n - 2]) / n;
}

}  // namespace

int terms_for(double ratio) {
  return std::max(8, static_cast<int>(std::ceil(std::log(1e7) / (2 * std::log(ratio)))));
}

OuterBoundary outer_boundary(const Space& space, int terms) {
  const Mesh& mesh = *space.mesh;
  OuterBoundary outer;
  const int order = space.dofs.order(), per_edge = order + 1;
  std::vector<int> edges, edge_dofs;
  for (Eigen::Index i = 0; i < mesh.outer_edges.cols(); ++i) {
    edges.push_back(edge_between(*space.topology, mesh.outer_edges(0, i), mesh.outer_edges(1, i)));
    edge_dofs.resize(edge_dofs.size() + per_edge);
    space.dofs.of_edge(edges.back(), &edge_dofs[edge_dofs.size() - per_edge]);
  }
  outer.dofs = edge_dofs;
  std::sort(outer.dofs.begin(), outer.dofs.end());
  outer.dofs.erase(std::unique(outer.dofs.begin(), outer.dofs.end()), outer.dofs.end());

  const int degree = space.geometry.dofs.order(), geometry_size = degree + 1;
  const LineRule rule = gauss_rule(order + 8 + terms / 8);
  Eigen::MatrixXd q = Eigen::MatrixXd::Zero(outer.dofs.size(), terms);
  Eigen::VectorXd p(terms), value(basis_size(highest_order));
  Eigen::Matrix2Xd slope(2, basis_size(highest_order));
  std::vector<int> shape(geometry_size);
  for (std::size_t e = 0; e < edges.size(); ++e) {
    space.geometry.dofs.of_edge(edges[e], shape.data());
    for (Eigen::Index k = 0; k < rule.points.size(); ++k) {
      const int highest = std::max(order, degree);
      evaluate_basis(highest, rule.points[k], 0, value.head(basis_size(highest)),
                     slope.leftCols(basis_size(highest)));
      const auto on_edge = [&](int i) { return i < 2 ? i : basis_size(i - 1); };  // functions of edge (0,1)
      Eigen::Vector2d at = Eigen::Vector2d::Zero(), tangent = at;
      for (int i = 0; i < geometry_size; ++i) {
        const Eigen::Vector2d c = space.geometry.coefficients.col(shape[i]);
        at += c * value[on_edge(i)];
        tangent += c * slope(0, on_edge(i));
      }
      const double r = at.x(), height = at.y() - mesh.outer_centre_z, rho = std::hypot(r, height);
      const double turn = std::abs(r * tangent.y() - height * tangent.x()) / (rho * rho);  // |dtheta/ds|
      legendre_1(height / rho, r / rho, p);
      const double phi = r / (r * r + space.r0 * space.r0) * (r / rho) * turn * rule.weights[k];
      for (int i = 0; i < per_edge; ++i) {
        const int dof = edge_dofs[e * per_edge + i];
        const auto row = std::lower_bound(outer.dofs.begin(), outer.dofs.end(), dof) - outer.dofs.begin();
        q.row(row) += (phi * value[on_edge(i)]) * p.transpose();
      }
    }
  }
  const double R = mesh.outer_radius;
  Eigen::VectorXd factor(terms);
  for (int n = 1; n <= terms; ++n) factor[n - 1] = pi * R / mu0 * (2.0 * n + 1) / (n + 1.0);
  outer.stiffness = q * factor.asDiagonal() * q.transpose();
  outer.per_background_T = 3 * pi * R * R / mu0 * q.col(0);
  return outer;
}

}  // namespace coilpull::detail
