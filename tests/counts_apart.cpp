// SPDX-License-Identifier: GPL-3.0-or-later
// Loaded before every program that tests/coverage runs: each leaves its counts in a folder of its own. Merged
// into one file they would be lost: libgcov 12 takes functions that one program has and another has not for
// damage.
#include <stdlib.h>
#include <unistd.h>

#include <string>

namespace {

__attribute__((constructor)) void count_apart() {
  const char* folder = getenv("COILPULL_COUNTS");
  char program[4096];
  const ssize_t length = readlink("/proc/self/exe", program, sizeof program);
  if (folder == nullptr || length <= 0) return;
  const std::string path(program, static_cast<std::size_t>(length));
  setenv("GCOV_PREFIX", (std::string(folder) + path.substr(path.rfind('/'))).c_str(), 1);
}

}  // namespace
