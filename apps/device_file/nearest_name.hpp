// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coilpull {

/// Fewest single letters added, dropped, changed or swapped with their neighbour between two words;
/// capitals count as small letters. Damerau, Commun. ACM 7 (1964) 171, no part edited twice.
std::size_t letters_apart(std::string_view a, std::string_view b);

/// The candidate that the person probably meant: at most 2 letters apart, and at most a third of the
/// longer word. None when nothing is that close.
std::optional<std::string> nearest_name(std::string_view word, const std::vector<std::string>& candidates);

/// "a, b, c"
std::string listed(const std::vector<std::string>& names);

/// `Did you mean "sleeve"?`, or, when nothing is near, what there is.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);

}  // namespace coilpull
