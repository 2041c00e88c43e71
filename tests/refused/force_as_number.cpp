// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/measurement.hpp"

double at_most(const coilpull::Measurement& row) {
#ifdef BAD
  return row.force_N;  // refused
#else
  return row.force_N.value + row.force_N.error;
#endif
}
