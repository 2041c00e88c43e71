// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/published/rings.hpp"

#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {

namespace {

/// Complete elliptic integrals by the arithmetic-geometric mean, NIST DLMF 19.8. The complementary modulus
/// goes in: for rings that nearly coincide it holds digits that k, close to 1, has lost.
struct Elliptic {
  double k, first, second;  ///< modulus k, K(k), E(k)
};

Elliptic elliptic(double a, double b, double d) {
  const double far = std::hypot(a + b, d), complement = std::hypot(a - b, d) / far;
  const double k = 2 * std::sqrt(a * b) / far;
  double x = 1, y = complement, half_power = 0.5, sum = half_power * k * k;
  while (x - y > 1e-15 * x) {
    const double c = 0.5 * (x - y);
    half_power *= 2;
    sum += half_power * c * c;
    const double mean = 0.5 * (x + y);
    y = std::sqrt(x * y);
    x = mean;
  }
  const double first = 0.5 * pi / x;
  return {k, first, first * (1 - sum)};
}

}  // namespace

double ring_inductance(double a, double b, double d) {
  const Elliptic e = elliptic(a, b, d);
  return mu0 * std::sqrt(a * b) * ((2 / e.k - e.k) * e.first - 2 / e.k * e.second);
}

double ring_inductance_slope(double a, double b, double d) {
  const Elliptic e = elliptic(a, b, d);
  const double missing = ((a - b) * (a - b) + d * d) / ((a + b) * (a + b) + d * d);  // 1 - k^2
  return mu0 * d * e.k / (4 * std::sqrt(a * b)) * (2 * e.first - (1 + missing) / missing * e.second);
}

MeanRule mean_rule(int points) {
  MeanRule rule;
  for (int i = 0; i < points; ++i) {
    double x = std::cos(pi * (i + 0.75) / (points + 0.5)), slope = 0;
    for (int step = 0; step < 20; ++step) {
      double before = 1, value = x;  // P_0, P_1
      for (int n = 2; n <= points; ++n) {
        const double next = ((2 * n - 1) * x * value - (n - 1) * before) / n;
        before = value;
        value = next;
      }
      slope = points * (x * value - before) / (x * x - 1);
      x -= value / slope;
    }
    rule.at.push_back(0.5 * (1 + x));
    rule.weight.push_back(1 / ((1 - x * x) * slope * slope));
  }
  return rule;
}

MeanRule mean_rule_towards_zero(int points) {
  const MeanRule panel = mean_rule(points);
  MeanRule rule;
  double high = 1;
  for (int panels = 0; panels < 11; ++panels) {  // 0.15^10 = 6e-9
    const double low = panels == 10 ? 0 : 0.15 * high;
    for (std::size_t i = 0; i < panel.at.size(); ++i) {
      rule.at.push_back(low + (high - low) * panel.at[i]);
      rule.weight.push_back((high - low) * panel.weight[i]);
    }
    high = low;
  }
  return rule;
}

double mean_over_sections(PairFunction f, const Box& first, const Box& second, int points) {
  const MeanRule rule = mean_rule(points);
  const auto between = [](double from, double to, double t) { return from + t * (to - from); };
  double sum = 0;
  for (int i = 0; i < points; ++i)
    for (int j = 0; j < points; ++j)
      for (int k = 0; k < points; ++k)
        for (int l = 0; l < points; ++l)
          sum += rule.weight[i] * rule.weight[j] * rule.weight[k] * rule.weight[l] *
                 f(between(first.r_from, first.r_to, rule.at[i]),
                   between(second.r_from, second.r_to, rule.at[j]),
                   between(second.z_from, second.z_to, rule.at[k]) -
                       between(first.z_from, first.z_to, rule.at[l]));
  return sum;
}

double section_self_inductance(const Box& section) {
  // Pairs of points at radii r, r + u and heights s apart: their density is 2 (t - u)/t^2 2 (l - s)/l^2.
  const double t = section.r_to - section.r_from, l = section.z_to - section.z_from;
  const MeanRule apart = mean_rule_towards_zero(16), along = mean_rule(16);
  double sum = 0;
  for (std::size_t i = 0; i < apart.at.size(); ++i)
    for (std::size_t j = 0; j < apart.at.size(); ++j) {
      const double u = t * apart.at[i], s = l * apart.at[j];
      const double weight = 4 * apart.weight[i] * (1 - apart.at[i]) * apart.weight[j] * (1 - apart.at[j]);
      for (std::size_t k = 0; k < along.at.size(); ++k) {
        const double r = section.r_from + (t - u) * along.at[k];
        sum += weight * along.weight[k] * ring_inductance(r, r + u, s);
      }
    }
  return sum;
}

double sheet_self_inductance(double radius, double length) {
  const MeanRule apart = mean_rule_towards_zero(16);
  double sum = 0;
  for (std::size_t j = 0; j < apart.at.size(); ++j)
    sum += 2 * apart.weight[j] * (1 - apart.at[j]) * ring_inductance(radius, radius, length * apart.at[j]);
  return sum;
}

double axis_field_of_section(double inner_radius, double outer_radius, double length, double height) {
  const auto primitive = [=](double u) {
    return u * std::log((outer_radius + std::hypot(outer_radius, u)) /
                        (inner_radius + std::hypot(inner_radius, u)));
  };
  const double density = 1 / ((outer_radius - inner_radius) * length);
  return 0.5 * mu0 * density * (primitive(height + 0.5 * length) - primitive(height - 0.5 * length));
}

double force_on_cylinder(double radius, double z_from, double z_to, double remanence_T, double ring_radius) {
  return remanence_T / mu0 *
         (ring_inductance(radius, ring_radius, z_to) - ring_inductance(radius, ring_radius, z_from));
}

}  // namespace coilpull
