// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <stdexcept>

namespace coilpull {

/// There is no such module, or it cannot be opened; says which and why.
struct NoModule : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A module of heavy libraries that the program opens only when they are asked for.
struct ModulePlaces {
  const char* library;              ///< what it stands for, in messages
  const char* name;                 ///< looked for beside the running program first
  std::filesystem::path built;      ///< where it was built
  std::filesystem::path installed;  ///< where it was installed
};

/// The address of a function in the module. Program and module come from one build. @throws NoModule
void* symbol_of_module(const ModulePlaces& places, const char* symbol);

}  // namespace coilpull
