// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/magnetic_law.hpp"

namespace coilpull {

LawPoint evaluate(const SoftLaw& law, double b_T) {
  return std::visit([b_T](const auto& any) { return any.at(b_T); }, law);
}

bool is_linear(const SoftLaw& law) { return std::holds_alternative<LinearLaw>(law); }

}  // namespace coilpull
