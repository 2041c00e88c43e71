// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "apps/output/origin.hpp"

namespace coilpull {

/// What every description of a result begins with: program, command, libraries, "input", the first device in
/// full and by their hashes the files it was read from, "further_inputs", the other devices and files; each
/// where there is one.
nlohmann::ordered_json how_it_was_run(const RunOrigin& run);

/// The text of a description: indented, bytes that are no UTF-8 replaced.
std::string description_text(const nlohmann::ordered_json& description);

}  // namespace coilpull
