// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "materials/law_point.hpp"
#include "materials/rayleigh_start.hpp"
#include "materials/saturation_tail.hpp"

namespace coilpull {

/// Single-valued B-H curve of a soft steel through measured points.
/// Between points: H is a monotone C1 cubic of B with dH/dB >= 0.2 of the smallest secant of the table
/// (materials/detail/monotone_cubic.hpp has the proof), so that the energy is strictly convex.
/// Up to the first point above zero, when the initial permeability is known: Rayleigh's parabola through it
/// (materials/rayleigh_start.hpp), joined without a kink.
/// Past the last point: SaturationTail, to the saturation polarization when it is known.
class BhCurve {
public:
  /// A point of the curve.
  struct Point {
    double h_A_per_m;
    double b_T;
  };

  /// dB/dH between two points, in mu0: less than 1, for the rounding of printed tables.
  static constexpr double smallest_slope = 0.98;

  /// @throws BadMaterial  naming the offending point, unless there are two points or more, the first is (0,
  ///   0), all are finite, both columns rise strictly and no secant dB/dH is below smallest_slope mu0;
  ///   or when the saturation polarization is not above J of the last point; or
  ///   when the initial permeability is not below that of the first point, or the curve beyond is too steep
  ///   for a parabola
  explicit BhCurve(const std::vector<Point>& points, std::optional<double> saturation_polarization_T = {},
                   std::optional<double> initial_permeability = {});

  double h(double b) const { return at(b).h; }                            ///< H(B)          [A/m]
  double dh_db(double b) const { return at(b).dh_db; }                    ///< dH/dB > 0     [A/(T m)]
  double energy_density(double b) const { return at(b).energy_density; }  ///< int_0^B H dB  [J/m^3]
  LawPoint at(double b) const;
  FieldPoint field(double b) const {
    const LawPoint point = at(b);
    return {point.h, point.dh_db};
  }

  std::vector<Point> points() const;              ///< as given
  double last_b() const { return ends_.back(); }  ///< B of the last point; above it the curve is the tail [T]
  double saturation_polarization() const { return tail_->saturation_polarization(); }  ///< J far away [T]
  std::optional<double> initial_permeability() const;                                  ///< as given

private:
  /// With u = b - start:  H = h + u (d + u (c2 + u c3)),  w = energy + int H du
  struct Piece {
    double start, energy, h, d, c2, c3;
  };

  std::vector<double> ends_;  ///< (pieces), B at the upper end of each
  std::vector<Piece> pieces_;
  std::optional<RayleighStart> start_;  ///< instead of the first piece
  std::optional<SaturationTail> tail_;  ///< always there
};

}  // namespace coilpull
