// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/require_number.hpp"

#include <cmath>

#include "materials/bad_material.hpp"
#include "materials/detail/number_text.hpp"

namespace coilpull::detail {

namespace {

[[noreturn]] void refuse(const std::string& key, double value, const std::string& allowed) {
  throw BadMaterial(key, key + " = " + number_text(value) + ": must be " + allowed);
}

}  // namespace

double require_above(double bound, const std::string& key, double value) {
  if (!std::isfinite(value) || value <= bound)
    refuse(key, value, "a finite number above " + number_text(bound));
  return value;
}

double require_at_least(double bound, const std::string& key, double value) {
  if (!std::isfinite(value) || value < bound)
    refuse(key, value, "a finite number of at least " + number_text(bound));
  return value;
}

double require_at_most(double bound, const std::string& key, double value, const std::string& reason) {
  if (!(value <= bound)) refuse(key, value, "at most " + number_text(bound) + ": " + reason);
  return value;
}

}  // namespace coilpull::detail
