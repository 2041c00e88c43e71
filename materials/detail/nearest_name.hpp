// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coilpull::detail {

/// The name with the fewest single-letter edits from the wanted one, capitals ignored; empty when even that
/// one needs more edits than a third of the wanted word's letters (one is always granted). The first wins a
/// tie.
std::optional<std::string> nearest_name(std::string_view wanted, const std::vector<std::string>& names);

/// ASCII letters in lower case.
std::string lower_case(std::string_view text);

}  // namespace coilpull::detail
