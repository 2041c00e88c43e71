// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/stop_signal.hpp"

#include <signal.h>
#include <unistd.h>

#include <atomic>

#include "apps/commands/exit_code.hpp"

namespace coilpull {
namespace {

// A signal handler has no other way to speak to the program; nothing outside this file sees the flag.
std::atomic<bool> asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may not wait for a lock");

extern "C" void on_stop(int) {
  if (asked.exchange(true)) _exit(exit_stopped);
}

}  // namespace

void watch_for_stop() {
  struct sigaction action = {};
  action.sa_handler = on_stop;
  action.sa_flags = SA_RESTART;  // reads from the mesher go on
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
  sigaction(SIGTERM, &action, nullptr);
}

bool stop_was_asked() { return asked; }

}  // namespace coilpull
