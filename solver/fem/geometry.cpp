// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/fem/geometry.hpp"

#include <Eigen/LU>
#include <cmath>

#include "materials/constants.hpp"

namespace coilpull::detail {
namespace {

/// Edge functions of degree 2 .. degree at a point s in [0, 1] along the edge: s (1-s) L_{d-2}(2s - 1).
Eigen::VectorXd edge_bubbles(double s, int degree) {
  Eigen::VectorXd value(basis_size(degree));
  Eigen::Matrix2Xd slope(2, basis_size(degree));
  evaluate_basis(degree, s, 0, value, slope);  // along edge (0,1): xi = s, eta = 0
  Eigen::VectorXd bubbles(degree - 1);
  for (int d = 2; d <= degree; ++d) bubbles[d - 2] = value[basis_size(d - 1)];
  return bubbles;
}

/// Edge functions of degree 2 .. degree through given values at the inner points of an edge.
class EdgeInterpolation {
public:
  explicit EdgeInterpolation(int degree);
  const Eigen::VectorXd& points() const { return points_; }
  Eigen::MatrixX2d modes(const Eigen::MatrixX2d& values) const { return lu_.solve(values); }

private:
  Eigen::VectorXd points_;
  Eigen::PartialPivLU<Eigen::MatrixXd> lu_;
};

/// Points inside (0, 1): Chebyshev extrema, whose interpolation error is within a small factor of the best.
Eigen::VectorXd inner_points(int count) {
  Eigen::VectorXd s(count);
  for (int i = 0; i < count; ++i) s[i] = 0.5 * (1 - std::cos(pi * (i + 1) / (count + 1)));
  return s;
}

EdgeInterpolation::EdgeInterpolation(int degree) : points_(inner_points(degree - 1)) {
  Eigen::MatrixXd bubbles(degree - 1, degree - 1);
  for (int i = 0; i < points_.size(); ++i) bubbles.row(i) = edge_bubbles(points_[i], degree).transpose();
  lu_.compute(bubbles);
}

Eigen::Vector2d on_arc(const Eigen::Vector2d& from, const Eigen::Vector2d& to, const Eigen::Vector2d& centre,
                       double s) {
  const Eigen::Vector2d a = from - centre, b = to - centre;
  const double turn = std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b)) * s;
  const double stretch = 1 + s * (b.norm() / a.norm() - 1);  // both ends are met to rounding
  return centre + stretch * Eigen::Vector2d(std::cos(turn) * a.x() - std::sin(turn) * a.y(),
                                            std::sin(turn) * a.x() + std::cos(turn) * a.y());
}

}  // namespace

Geometry geometry_of(const Mesh& mesh, const Topology& topology, int degree) {
  Geometry geometry{DofMap(topology, degree), {}, std::vector<char>(topology.triangles.cols(), 0)};
  geometry.coefficients = Eigen::Matrix2Xd::Zero(2, geometry.dofs.size());
  geometry.coefficients.leftCols(topology.vertices) = mesh.nodes;
  if (degree < 2) return geometry;

  const EdgeInterpolation interpolation(degree);
  const Eigen::VectorXd& points = interpolation.points();

  std::vector<char> on_curve(topology.edges.cols(), 0);
  for (const ArcEdge& arc : mesh.arcs) {
    const int edge = edge_between(topology, arc.a, arc.b);
    const Eigen::Vector2d a = mesh.nodes.col(topology.edges(0, edge)),
                          b = mesh.nodes.col(topology.edges(1, edge));
    const Eigen::Vector2d centre(arc.centre.r, arc.centre.z);
    Eigen::MatrixX2d off_chord(degree - 1, 2);
    for (int i = 0; i < points.size(); ++i)
      off_chord.row(i) = (on_arc(a, b, centre, points[i]) - (1 - points[i]) * a - points[i] * b).transpose();
    const Eigen::MatrixX2d modes = interpolation.modes(off_chord);
    for (int d = 2; d <= degree; ++d)
      geometry.coefficients.col(geometry.dofs.edge_dof(edge, d)) = modes.row(d - 2).transpose();
    on_curve[edge] = 1;
  }
  for (Eigen::Index t = 0; t < topology.triangles.cols(); ++t)
    for (int e = 0; e < 3; ++e)
      if (on_curve[topology.triangle_edges(e, t)]) geometry.curved[t] = 1;
  return geometry;
}

Eigen::Matrix2Xd velocity_on(const Geometry& geometry, const Mesh& mesh, const Topology& topology,
                             const NodeMotion& motion) {
  const int degree = geometry.dofs.order();
  Eigen::Matrix2Xd velocity = Eigen::Matrix2Xd::Zero(2, geometry.dofs.size());
  velocity.leftCols(topology.vertices) = motion.nodes;
  if (degree < 2) return velocity;
  const EdgeInterpolation interpolation(degree);
  const Eigen::VectorXd& points = interpolation.points();
  for (std::size_t k = 0; k < mesh.arcs.size(); ++k) {
    const ArcEdge& arc = mesh.arcs[k];
    const int edge = edge_between(topology, arc.a, arc.b);
    const Eigen::Vector2d a = mesh.nodes.col(topology.edges(0, edge)),
                          b = mesh.nodes.col(topology.edges(1, edge)),
                          of_a = motion.nodes.col(topology.edges(0, edge)),
                          of_b = motion.nodes.col(topology.edges(1, edge));
    if (of_a.isZero(0) && of_b.isZero(0)) continue;
    const Eigen::Vector2d centre(arc.centre.r, arc.centre.z), shift = motion.arcs.col(k).tail<2>();
    const auto away = [&](double s) -> Eigen::Vector2d {
      return (on_arc(a, b, centre, s) - centre).normalized();
    };
    const auto as_a_whole = [&](double s) -> Eigen::Vector2d { return motion.arcs(0, k) * away(s) + shift; };
    const auto along = [&](double s) { return Eigen::Vector2d(-away(s).y(), away(s).x()); };
    const double slide_a = (of_a - as_a_whole(0)).dot(along(0)),
                 slide_b = (of_b - as_a_whole(1)).dot(along(1));
    Eigen::MatrixX2d off_chord(degree - 1, 2);
    for (int i = 0; i < points.size(); ++i) {
      const double s = points[i];
      off_chord.row(i) =
          (as_a_whole(s) + ((1 - s) * slide_a + s * slide_b) * along(s) - (1 - s) * of_a - s * of_b)
              .transpose();
    }
    const Eigen::MatrixX2d modes = interpolation.modes(off_chord);
    for (int d = 2; d <= degree; ++d)
      velocity.col(geometry.dofs.edge_dof(edge, d)) = modes.row(d - 2).transpose();
  }
  return velocity;
}

Geometry moved(const Geometry& geometry, const Eigen::Matrix2Xd& velocity, double step) {
  Geometry moved = geometry;
  moved.coefficients += step * velocity;
  std::fill(moved.curved.begin(), moved.curved.end(), 1);
  return moved;
}

Geometry moved_along_z(const Geometry& geometry, const Eigen::VectorXd& shift, double step) {
  Geometry moved = geometry;
  moved.coefficients.row(1).head(shift.size()) += step * shift.transpose();
  std::fill(moved.curved.begin(), moved.curved.end(), 1);
  return moved;
}

}  // namespace coilpull::detail
