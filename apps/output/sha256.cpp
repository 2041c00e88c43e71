// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sha256.hpp"

#include <sys/types.h>
// sha2.h asks for the two above
#include <sha2.h>

#include <cstdint>

namespace coilpull {

std::string sha256(std::string_view bytes) {
  char digits[SHA256_DIGEST_STRING_LENGTH];
  return SHA256Data(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size(), digits);
}

std::optional<std::string> sha256_of_file(const std::filesystem::path& file) {
  char digits[SHA256_DIGEST_STRING_LENGTH];
  if (SHA256File(file.c_str(), digits) == nullptr) return std::nullopt;
  return digits;
}

}  // namespace coilpull
