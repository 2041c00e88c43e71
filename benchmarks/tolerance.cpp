// SPDX-License-Identifier: GPL-3.0-or-later
// What a tighter tolerance costs: processor time of a table at 1 % and at 0.01 %, its mesher included, device
// by device in turn. Run: bench_tolerance [FIRST LAST], seeds of tests/physics/random_device.hpp, 461 to 520
// unless told.
#include <sys/resource.h>

#include <cstdio>
#include <string>

#include "solver/sweep/sweep.hpp"
#include "tests/physics/judged_devices.hpp"

using namespace coilpull;

namespace {

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

/// Of this process and of the meshers that have ended.
double processor_time_s() {
  double sum = 0;
  for (const int whose : {RUSAGE_SELF, RUSAGE_CHILDREN}) {
    rusage used{};
    getrusage(whose, &used);
    sum += seconds(used.ru_utime) + seconds(used.ru_stime);
  }
  return sum;
}

double cost_s(unsigned seed, double tolerance) {
  const Device device = judged_device(seed, tolerance);
  SweepOptions options;
  options.audit = false;
  options.threads = 1;
  const double before = processor_time_s();
  if (sweep(device, options).tolerance_reached > tolerance)
    std::printf("%u: %g is not reached\n", seed, tolerance);
  return processor_time_s() - before;
}

}  // namespace

int main(int argc, char** argv) {
  const unsigned first = argc > 2 ? static_cast<unsigned>(std::stoul(argv[1])) : 461,
                 last = argc > 2 ? static_cast<unsigned>(std::stoul(argv[2])) : 520;
  double loose_s = 0, tight_s = 0;
  for (unsigned seed = first; seed <= last; ++seed) {
    const double loose = cost_s(seed, 1e-2), tight = cost_s(seed, 1e-4);
    loose_s += loose, tight_s += tight;
    std::printf("%u: %.2f times (%.2f and %.2f s)\n", seed, tight / loose, loose, tight);
    std::fflush(stdout);
  }
  std::printf("all: %.2f times (%.1f and %.1f s)\n", tight_s / loose_s, loose_s, tight_s);
}
