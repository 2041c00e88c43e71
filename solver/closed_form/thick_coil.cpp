// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/closed_form/thick_coil.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "materials/constants.hpp"
#include "solver/closed_form/detail/gauss_points.hpp"

namespace coilpull {

namespace {

using detail::graded_integral;
using detail::Singularity;

CurrentSheet sheet_at(double radius, const Box& section) { return {radius, section.z_from, section.z_to}; }
double width_of(const Box& section) { return section.r_to - section.r_from; }

/// Mean of f over the radii of a section, where f is singular at radius `at` with the ends `off` away along
/// z.
template <class F>
auto mean_over_radii(const Box& section, double at, double off, double narrowest, const F& f) {
  const double width = width_of(section), split = std::clamp(at, section.r_from, section.r_to);
  const std::array<Singularity, 1> singular = {{{at, off}}};
  if (split == section.r_from || split == section.r_to)
    return (1 / width) * graded_integral(section.r_from, section.r_to, singular, narrowest * width, f);
  auto sum = graded_integral(section.r_from, split, singular, narrowest * width, f);
  sum += graded_integral(split, section.r_to, singular, narrowest * width, f);
  return (1 / width) * sum;
}

/// Smallest distance along z between an end of the one and an end of the other.
double between_ends(double from1, double to1, double from2, double to2) {
  return std::min(
      {std::abs(from1 - from2), std::abs(from1 - to2), std::abs(to1 - from2), std::abs(to1 - to2)});
}

// The sheets' S(u) has x ln x, their G(u) x^2 ln x where radii meet, x the difference of radii; a mean over
// the one radius raises the power by one. An interval of width w left ungraded then errs by w^2 and more.
constexpr double narrowest_slope = 1e-7, narrowest_inductance = 1e-5, narrowest_outer = 1e-4;

template <class F>
double mean_over_sheets(const Box& section, const CurrentSheet& sheet, double narrowest, const F& f) {
  const double off = between_ends(section.z_from, section.z_to, sheet.z_from, sheet.z_to);
  return mean_over_radii(section, sheet.radius, off, narrowest,
                         [&](double radius) { return f(sheet_at(radius, section), sheet); });
}

/// The mean over the second section is singular where the radius of the first meets one of its edges.
template <class F>
double mean_over_pairs(const Box& first, const Box& second, double narrowest, const F& f) {
  const double off = between_ends(first.z_from, first.z_to, second.z_from, second.z_to);
  const std::array<Singularity, 2> edges = {{{second.r_from, off}, {second.r_to, off}}};
  const auto share = [&](double radius) {
    return mean_over_sheets(
        second, sheet_at(radius, first), narrowest,
        [&](const CurrentSheet& of_second, const CurrentSheet& of_first) { return f(of_first, of_second); });
  };
  const auto inside = [&](double r) { return std::clamp(r, first.r_from, first.r_to); };
  const std::array<double, 4> ends = {first.r_from, inside(second.r_from), inside(second.r_to), first.r_to};
  double sum = 0;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i)
    if (ends[i] < ends[i + 1])
      sum += graded_integral(ends[i], ends[i + 1], edges, narrowest_outer * width_of(first), share);
  return sum / width_of(first);
}

double inductance_of(const CurrentSheet& a, const CurrentSheet& b) { return mutual_inductance(a, b); }
double slope_of(const CurrentSheet& a, const CurrentSheet& b) { return inductance_slope(a, b); }

}  // namespace

double axis_flux_density(const Box& section, double ampere_turns, double z) {
  const auto primitive = [&](double u) {
    return u * std::log((section.r_to + std::hypot(section.r_to, u)) /
                        (section.r_from + std::hypot(section.r_from, u)));
  };
  const double density = ampere_turns / (width_of(section) * (section.z_to - section.z_from));
  return 0.5 * mu0 * density * (primitive(z - section.z_from) - primitive(z - section.z_to));
}

SourceField flux_density(const Box& section, double ampere_turns, Point at) {
  const double off = std::min(std::abs(at.z - section.z_from), std::abs(at.z - section.z_to));
  return mean_over_radii(section, at.r, off, 1e-12, [&](double radius) {  // logarithm at the ends
    return flux_density(sheet_at(radius, section), ampere_turns, at);
  });
}

double mutual_inductance(const Box& first, const Box& second) {
  return mean_over_pairs(first, second, narrowest_inductance, inductance_of);
}

double mutual_inductance(const Box& section, const CurrentSheet& sheet) {
  return mean_over_sheets(section, sheet, narrowest_inductance, inductance_of);
}

double inductance_slope(const Box& first, const Box& second) {
  return mean_over_pairs(first, second, narrowest_slope, slope_of);
}

double inductance_slope(const Box& section, const CurrentSheet& sheet) {
  return mean_over_sheets(section, sheet, narrowest_slope, slope_of);
}

double self_inductance(const Box& section) {
  return mean_over_pairs(section, section, narrowest_inductance, inductance_of);
}

}  // namespace coilpull
