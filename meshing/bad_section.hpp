// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

namespace coilpull {

/// A drawing that cannot be meshed; names the parts, the place and the amount.
struct BadSection : std::runtime_error {
  BadSection(std::string first_part, std::string second_part, const std::string& what)
      : std::runtime_error(what), first(std::move(first_part)), second(std::move(second_part)) {}
  std::string first;   ///< the part at fault
  std::string second;  ///< the other part; empty when the first is wrong by itself
};

}  // namespace coilpull
