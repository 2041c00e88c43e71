// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "apps/variants/key_paths.hpp"
#include "apps/variants/variants_file.hpp"

namespace coilpull {

/// A node as TOML of one line.
std::string as_toml(const toml::node& node);

/// @throws BadDevice  no whole number from `least` to most_rows
std::size_t count_of(const Value& value, long least);

/// What each key may be: a list, or { from, to } and, where `stepped`, points.
/// @throws BadDevice
std::vector<Choices> read_all_choices(const std::vector<KeyPath>& keys, const SourceText& text, bool stepped);

}  // namespace coilpull
