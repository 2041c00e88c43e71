// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/offset_force.hpp"

#include <cmath>

#include "materials/constants.hpp"
#include "solver/closed_form/detail/gauss_points.hpp"

namespace coilpull {
namespace {

constexpr int around = 64;  ///< points on a full turn: a smooth periodic function leaves nothing measurable

/// A point of a section's outline: where, and n_z ds of its outward normal [m].
struct OutlinePoint {
  Point at;
  double normal_z;  ///< times the length it stands for
};

/// Point and derivative of an edge at t in [0, 1].
struct OnEdge {
  Point at, slope;
};

OnEdge on_edge(const Edge& edge, double t) {
  if (!edge.centre)
    return {{edge.from.r + t * (edge.to.r - edge.from.r), edge.from.z + t * (edge.to.z - edge.from.z)},
            {edge.to.r - edge.from.r, edge.to.z - edge.from.z}};
  const Point c = *edge.centre;
  const double radius = std::hypot(edge.from.r - c.r, edge.from.z - c.z);
  const double start = std::atan2(edge.from.z - c.z, edge.from.r - c.r);
  double turn = std::atan2(edge.to.z - c.z, edge.to.r - c.r) - start;
  while (turn > pi * (1 + 1e-9)) turn -= 2 * pi;
  while (turn < -pi * (1 - 1e-9)) turn += 2 * pi;  // half a turn runs counter-clockwise
  const double angle = start + t * turn;
  return {{c.r + radius * std::cos(angle), c.z + radius * std::sin(angle)},
          {-radius * turn * std::sin(angle), radius * turn * std::cos(angle)}};
}

/// The outline runs counter-clockwise, r to the right: its outward normal is (dz, -dr).
std::vector<OutlinePoint> points_of(const Outline& outline, int pieces) {
  const detail::GaussPoints& rule = detail::gauss_points();
  std::vector<OutlinePoint> points;
  for (const Edge& edge : outline.edges)
    for (int piece = 0; piece < pieces; ++piece)
      for (std::size_t q = 0; q < rule.at.size(); ++q) {
        const OnEdge on = on_edge(edge, (piece + 0.5 * (1 + rule.at[q])) / pieces);
        points.push_back({on.at, -on.slope.r * 0.5 * rule.weight[q] / pieces});
      }
  return points;
}

/// (x, y, z) relative to the shifted pivot.
Eigen::Vector3d turned(Point at, double angle, const Pose& pose) {
  const double x = at.r * std::cos(angle), z = at.z - pose.pivot_z;
  const double c = std::cos(pose.tilt), s = std::sin(pose.tilt);
  return {c * x + s * z, at.r * std::sin(angle), -s * x + c * z};
}

Point place_of(const Eigen::Vector3d& arm, const Pose& pose) {
  return {std::hypot(arm.x() + pose.offset, arm.y()), arm.z() + pose.pivot_z};
}

}  // namespace

OffsetForce& OffsetForce::operator+=(OffsetForce other) {
  axial_N += other.axial_N;
  side_N += other.side_N;
  torque_Nm += other.torque_Nm;
  return *this;
}

OffsetForce force_in_field(const AxialCharge& magnet, const Pose& pose, const AxisymmetricField& field,
                           int pieces) {
  OffsetForce sum;
  for (const OutlinePoint& point : points_of(magnet.outline, pieces)) {
    if (point.normal_z == 0) continue;  // no charge on what runs along the magnetisation
    // (J.n)/mu0 dS = J n_z/mu0 r dphi; y and -y are alike, so half a turn counts twice
    const double charge = magnet.polarization_T / mu0 * point.normal_z * point.at.r * 2 * (2 * pi / around);
    for (int k = 0; k < around / 2; ++k) {
      const Eigen::Vector3d arm = turned(point.at, 2 * pi * (k + 0.5) / around, pose);
      const Point at = place_of(arm, pose);
      const FluxDensity b = field(at);
      const double bx = at.r > 0 ? b.r * (arm.x() + pose.offset) / at.r : 0;
      sum += {charge * b.z, charge * bx, charge * (arm.z() * bx - arm.x() * b.z)};
    }
  }
  return sum;
}

std::vector<Point> surface_points(const Outline& magnet, const Pose& pose, int pieces) {
  std::vector<Point> points;
  for (const OutlinePoint& point : points_of(magnet, pieces))
    for (int k = 0; k <= around / 2; ++k)
      points.push_back(place_of(turned(point.at, 2 * pi * k / around, pose), pose));
  return points;
}

}  // namespace coilpull
