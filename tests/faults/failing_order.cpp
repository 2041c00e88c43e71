// SPDX-License-Identifier: GPL-3.0-or-later
// Loaded before CHOLMOD (LD_PRELOAD): from the call $FAULT_FROM on a matrix cannot be ordered, as without
// memory.
#include <dlfcn.h>

#include <atomic>
#include <cstddef>
#include <cstdlib>

extern "C" int cholmod_camd(void* matrix, int* subset, std::size_t size, int* groups, int* order,
                            void* common) {
  static std::atomic<int> calls{0};
  const char* from = std::getenv("FAULT_FROM");
  if (from != nullptr && ++calls >= std::atoi(from)) return 0;
  using Order = int(void*, int*, std::size_t, int*, int*, void*);
  return reinterpret_cast<Order*>(dlsym(RTLD_NEXT, "cholmod_camd"))(matrix, subset, size, groups, order,
                                                                    common);
}
