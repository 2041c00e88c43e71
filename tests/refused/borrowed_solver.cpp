// SPDX-License-Identifier: GPL-3.0-or-later
// A copy would share factors that solve() changes, and two threads would meet in them.
#include <utility>

#include "solver/field/field_solver.hpp"

coilpull::FieldSolver take(coilpull::FieldSolver& first) {
#ifdef BAD
  return first;  // refused
#else
  return std::move(first);
#endif
}
