// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/balls.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {

namespace {

/// The centre of the circle through three points, moved so that both ends are equally far to rounding.
Point centre_through(Point a, Point on, Point b) {
  const double ur = b.r - a.r, uz = b.z - a.z, vr = on.r - a.r, vz = on.z - a.z;
  const double twice = 2 * (ur * vz - uz * vr), uu = ur * ur + uz * uz, vv = vr * vr + vz * vz;
  const Point c{a.r + (vz * uu - uz * vv) / twice, a.z + (ur * vv - vr * uu) / twice};
  const double off = ((a.r + b.r) / 2 - c.r) * ur + ((a.z + b.z) / 2 - c.z) * uz;
  return {c.r + off / uu * ur, c.z + off / uu * uz};
}

}  // namespace

Outline ball(double radius, double centre_z) {
  const Point centre{0, centre_z}, bottom{0, centre_z - radius}, right{radius, centre_z};
  const Point top{0, centre_z + radius};
  return {{{bottom, right, centre}, {right, top, centre}, {top, bottom}}};
}

Outline hollow_ball(double radius, double bore_radius) {
  const Point centre{0, 0}, bottom{0, -radius}, right{radius, 0}, top{0, radius};
  const Point inner_top{0, bore_radius}, inner_right{bore_radius, 0}, inner_bottom{0, -bore_radius};
  return {{{bottom, right, centre},
           {right, top, centre},
           {top, inner_top},
           {inner_top, inner_right, centre},
           {inner_right, inner_bottom, centre},
           {inner_bottom, bottom}}};
}

Outline spheroid(double radius, double half_length, int arcs) {
  const int all = 2 * arcs;
  const auto at = [&](double i) {
    const double angle = pi * (i / all - 0.5);
    return Point{i == 0 || i == all ? 0 : radius * std::cos(angle), half_length * std::sin(angle)};
  };
  Outline outline;
  for (int i = 0; i < all; ++i)
    outline.edges.push_back({at(i), at(i + 1), centre_through(at(i), at(i + 0.5), at(i + 1))});
  outline.edges.push_back({at(all), at(0)});
  return outline;
}

Device core_in_field(const Outline& outline, const SoftLaw& law, double h0_A_per_m, double far) {
  Device device;
  device.cores = {{"body", outline, law, "published case"}};
  device.sensors = {{"far", {0, far}}};
  device.background_bz_T = mu0 * h0_A_per_m;
  return device;
}

}  // namespace coilpull
