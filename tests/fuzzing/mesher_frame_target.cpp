// SPDX-License-Identifier: GPL-3.0-or-later
// What comes back from the mesher's process, or goes to it, as bytes: refused, or the same bytes again.
#include "meshing/detail/protocol.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull::detail;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const auto* first = reinterpret_cast<const std::byte*>(bytes);
  const std::vector<std::byte> body(first, first + size);
  try {
    if (to_bytes(reply_from(body)) != body) coilpull::found("a reply changes on its way");
  } catch (const BadFrame&) {
  }
  try {
    to_bytes(request_from(body));  // reads Algorithm as it comes: see gmsh_mesher
  } catch (const BadFrame&) {
  }
  return 0;
}
