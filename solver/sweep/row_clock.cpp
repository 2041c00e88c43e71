// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/row_clock.hpp"

#include <time.h>

namespace coilpull {
namespace {

double processor_time_s() {
  timespec spent{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &spent);
  return static_cast<double>(spent.tv_sec) + 1e-9 * static_cast<double>(spent.tv_nsec);
}

}  // namespace

void RowClock::start() { started_s_ = processor_time_s(); }

bool RowClock::out_of_time() const { return processor_time_s() - started_s_ > limit_s_; }

}  // namespace coilpull
