// SPDX-License-Identifier: GPL-3.0-or-later
// RowStatus::ok is 0: as a truth value every good row would be a bad one.
#include "solver/measure/measurement.hpp"

bool is_good(const coilpull::Measurement& row) {
#ifdef BAD
  return row.status;  // refused
#else
  return row.status == coilpull::RowStatus::ok;
#endif
}
