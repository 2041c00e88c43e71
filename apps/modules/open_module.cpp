// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/modules/open_module.hpp"

#include <dlfcn.h>

#include <string>
#include <vector>

namespace coilpull {

namespace fs = std::filesystem;

void* symbol_of_module(const ModulePlaces& places, const char* symbol) {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  std::vector<fs::path> candidates;
  if (!error) candidates.push_back(program.parent_path() / places.name);
  candidates.push_back(places.built);
  candidates.push_back(places.installed);
  for (const fs::path& place : candidates) {
    if (!fs::exists(place, error)) continue;
    void* module = ::dlopen(place.c_str(), RTLD_NOW | RTLD_LOCAL);
    if (!module) throw NoModule("cannot open " + place.string() + ": " + ::dlerror() + ".");
    if (void* found = ::dlsym(module, symbol)) return found;
    throw NoModule(place.string() + " is of another build.");
  }
  throw NoModule(std::string("this build has no ") + places.library + ".");
}

}  // namespace coilpull
