// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/field/field.hpp"

bool is_good(const coilpull::Field& field) {
#ifdef BAD
  return field.report.ending;  // refused
#else
  return field.report.usable();
#endif
}
