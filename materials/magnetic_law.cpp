// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/magnetic_law.hpp"

#include <cmath>

namespace coilpull {

LawPoint evaluate(const SoftLaw& law, double b_T) {
  return std::visit([b_T](const auto& any) { return any.at(b_T); }, law);
}

double coenergy_density(const SoftLaw& law, double b_T) {
  const LawPoint at = evaluate(law, b_T);
  return at.h * b_T - at.energy_density;
}

/// Newton within bounds that enclose the answer, halved when a step would leave them.
double flux_density(const SoftLaw& law, double h_A_per_m) {
  if (!(h_A_per_m > 0)) return 0;
  double low = 0, high = 1;
  while (evaluate(law, high).h < h_A_per_m) low = high, high *= 2;
  double b = 0.5 * (low + high);
  constexpr int max_steps = 200;
  for (int i = 0; i < max_steps; ++i) {
    const LawPoint at = evaluate(law, b);
    (at.h > h_A_per_m ? high : low) = b;
    double next = b - (at.h - h_A_per_m) / at.dh_db;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - b) <= 1e-15 * b) return next;
    b = next;
  }
  return b;
}

bool is_linear(const SoftLaw& law) { return std::holds_alternative<LinearLaw>(law); }

}  // namespace coilpull
