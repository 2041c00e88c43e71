// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/bh_curve.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "materials/bad_material.hpp"
#include "materials/constants.hpp"
#include "materials/detail/monotone_cubic.hpp"
#include "materials/detail/number_text.hpp"

namespace coilpull {

namespace {

using detail::number_text;

[[noreturn]] void refuse(const std::vector<BhCurve::Point>& points, std::size_t i, const std::string& key,
                         const std::string& fact) {
  throw BadMaterial(key,
                    "point " + std::to_string(i + 1) + " (H = " + number_text(points[i].h_A_per_m) +
                        " A/m, B = " + number_text(points[i].b_T) + " T): " + fact,
                    i);
}

void check(const std::vector<BhCurve::Point>& points) {
  if (points.size() < 2) throw BadMaterial("h_A_per_m", "a B-H table needs at least two points");
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto [h, b] = points[i];
    if (!std::isfinite(h)) refuse(points, i, "h_A_per_m", "H must be a finite number");
    if (!std::isfinite(b)) refuse(points, i, "b_T", "B must be a finite number");
    if (i == 0) {
      if (h != 0) refuse(points, i, "h_A_per_m", "the first point must be H = 0, B = 0");
      if (b != 0) refuse(points, i, "b_T", "the first point must be H = 0, B = 0");
      continue;
    }
    const auto [h_before, b_before] = points[i - 1];
    if (h <= h_before)
      refuse(points, i, "h_A_per_m", "H must rise; the point before has " + number_text(h_before) + " A/m");
    if (b <= b_before)
      refuse(points, i, "b_T", "B must rise; the point before has " + number_text(b_before) + " T");
    const double slope = (b - b_before) / (h - h_before) / mu0;
    if (slope < BhCurve::smallest_slope)
      refuse(points, i, "b_T",
             "the slope dB/dH from the point before is " + number_text(std::round(1e3 * slope) / 1e3) +
                 " mu0; it must be at least mu0 (2 % less is accepted as rounding)");
  }
}

/// int_0^u of  H = h + u (d + u (c2 + u c3))
double energy_of(double h, double d, double c2, double c3, double u) {
  return u * (h + u * (d / 2 + u * (c2 / 3 + u * c3 / 4)));
}

}  // namespace

BhCurve::BhCurve(const std::vector<Point>& points, std::optional<double> saturation_polarization_T,
                 std::optional<double> initial_permeability) {
  check(points);
  std::vector<double> b, h;
  for (const Point& point : points) b.push_back(point.b_T), h.push_back(point.h_A_per_m);
  if (initial_permeability) start_ = rayleigh_through(h[1], b[1], *initial_permeability);
  std::vector<double> d = start_ && b.size() > 2 ? detail::monotone_slopes(b, h, start_->at(b[1]).dh_db)
                                                 : detail::monotone_slopes(b, h);
  if (d.empty())
    throw BadMaterial(
        "initial_permeability",
        "initial_permeability = " + number_text(*initial_permeability) +
            ": the curve beyond the first point above zero is too steep to be joined to Rayleigh's "
            "parabola without a kink; leave it out, or give a point at a weaker field");
  if (start_ && b.size() == 2) d[1] = start_->at(b[1]).dh_db;
  d.back() = std::min(d.back(), 1 / mu0);  // J does not fall at the last point; the bound of the slopes holds

  double energy = 0;
  for (std::size_t i = 0; i + 1 < b.size(); ++i) {
    const double width = b[i + 1] - b[i], secant = (h[i + 1] - h[i]) / width;
    const double c2 = (3 * secant - 2 * d[i] - d[i + 1]) / width;
    const double c3 = (d[i] + d[i + 1] - 2 * secant) / (width * width);
    pieces_.push_back({b[i], energy, h[i], d[i], c2, c3});
    ends_.push_back(b[i + 1]);
    energy += start_ && i == 0 ? start_->at(b[1]).energy_density : energy_of(h[i], d[i], c2, c3, width);
  }
  tail_.emplace(b.back(), LawPoint{energy, h.back(), d.back()}, saturation_polarization_T);
}

LawPoint BhCurve::at(double b) const {
  if (b > ends_.back()) return tail_->at(b);
  if (start_ && b <= ends_.front()) return start_->at(b);
  const auto end = std::lower_bound(ends_.begin(), ends_.end() - 1, b);
  const Piece& p = pieces_[static_cast<std::size_t>(end - ends_.begin())];
  const double u = b - p.start;
  return {p.energy + energy_of(p.h, p.d, p.c2, p.c3, u), p.h + u * (p.d + u * (p.c2 + u * p.c3)),
          p.d + u * (2 * p.c2 + u * 3 * p.c3)};
}

std::vector<BhCurve::Point> BhCurve::points() const {
  std::vector<Point> all;
  for (const Piece& piece : pieces_) all.push_back({piece.h, piece.start});
  all.push_back({tail_->start().h, ends_.back()});
  return all;
}

std::optional<double> BhCurve::initial_permeability() const {
  return start_ ? std::optional(start_->mu_i) : std::nullopt;
}

}  // namespace coilpull
