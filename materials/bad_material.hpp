// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

namespace coilpull {

/// A material, wire or data file that cannot be used; the words say value, fact and what is allowed.
/// `key` and `element` let whoever read the numbers from a file add file and line.
struct BadMaterial : std::runtime_error {
  BadMaterial(std::string bad_key, const std::string& what, std::optional<std::size_t> bad_element = {})
      : std::runtime_error(what), key(std::move(bad_key)), element(bad_element) {}
  std::string key;  ///< as written in files ("half_field_A_per_m"); empty: no key is at fault
  std::optional<std::size_t> element;  ///< position in a list, from 0
};

}  // namespace coilpull
