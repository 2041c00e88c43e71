// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/published_laws.hpp"

#include <stdexcept>

#include "apps/validation/record.hpp"
#include "materials/catalogue.hpp"
#include "materials/constants.hpp"

namespace coilpull {

bool is_joined_table(const std::string& words) { return words.rfind("TEAM13", 0) == 0; }

SoftLaw published_law(const std::string& words) {
  const auto number = [&](const char* key) { return number_after(words, std::string(key) + "="); };
  const auto is = [&](const char* kind) { return words.rfind(kind, 0) == 0; };
  if (is_joined_table(words)) return standard_catalogue().steel("team 13 steel").law;
  if (is("brauer")) return BrauerLaw(number("k1"), number("k2"), number("k3"));
  const double js = number("Js"), chi0 = number("chi0");
  if (is("froehlich")) return FroehlichLaw(js, js / (chi0 * mu0));
  if (is("arctan")) return ArctangentLaw(js, chi0);
  if (is("langevin")) return LangevinLaw(js, js / (3 * chi0 * mu0));
  throw std::runtime_error("no such law: " + words);
}

double flux_density_at(const SoftLaw& law, double h_A_per_m) {
  double low = 0, high = 10 + 2 * mu0 * h_A_per_m;
  for (int i = 0; i < 200; ++i) {
    const double b = 0.5 * (low + high);
    (evaluate(law, b).h < h_A_per_m ? low : high) = b;
  }
  return low;
}

}  // namespace coilpull
