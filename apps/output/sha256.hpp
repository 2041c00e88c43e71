// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace coilpull {

/// SHA-256 (FIPS 180-4) of the bytes, 64 lower-case hexadecimal digits.
std::string sha256(std::string_view bytes);

/// The same of the bytes of a file; nothing where it cannot be read.
std::optional<std::string> sha256_of_file(const std::filesystem::path& file);

}  // namespace coilpull
