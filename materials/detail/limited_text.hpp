// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <istream>
#include <optional>
#include <string>

namespace coilpull::detail {

/// Largest file that is read, so that a wrong name (a disk image, an endless device) costs no memory.
inline constexpr std::size_t most_bytes_of_description = 4u << 20;  ///< device files and material files

/// All that the stream still holds, or nothing when that is more than `most` bytes or cannot be read.
inline std::optional<std::string> limited_text(std::istream& in, std::size_t most) {
  std::string text;
  if (in.seekg(0, std::ios::end)) {  // a file tells its size; a pipe does not
    if (in.tellg() > static_cast<std::streamoff>(most)) return std::nullopt;
    if (in.tellg() > 0) text.reserve(static_cast<std::size_t>(in.tellg()));
    in.seekg(0);
  }
  in.clear();
  char block[1 << 16];
  do {
    in.read(block, sizeof block);
    text.append(block, static_cast<std::size_t>(in.gcount()));
    if (text.size() > most) return std::nullopt;
  } while (in);
  if (in.bad()) return std::nullopt;
  return text;
}

}  // namespace coilpull::detail
