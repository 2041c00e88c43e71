// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string_view>

namespace coilpull::detail {

/// Parts of a key like a.b.c at most: each is a table in a table for the reader of TOML, which limits the
/// depth of brackets but not this one, and runs out of stack at 40 000.
inline constexpr std::size_t most_key_parts = 32;

/// The first line (from 1) with a key of more than most_key_parts parts; 0 when there is none.
std::size_t line_of_deep_key(std::string_view toml);

}  // namespace coilpull::detail
