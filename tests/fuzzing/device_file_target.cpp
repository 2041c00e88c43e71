// SPDX-License-Identifier: GPL-3.0-or-later
// A device file is refused with words, or read; then its canonical text says the same device, and its drawing
// is judged at the first displacement.
#include "apps/device_file/canonical_text.hpp"
#include "solver/device/section_at.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;

namespace {

/// @throws BadDevice
void read(std::string_view text) {
  DeviceFile file = open_device_text(text, "fuzzed.toml", "");
  const std::string canonical = canonical_text(file);
  try {
    if (canonical_text(open_device_text(canonical, "canonical.toml", "")) != canonical)
      found("the canonical text reads as another device:\n" + canonical);
  } catch (const BadDevice& refused) {
    found(std::string("the canonical text is refused: ") + refused.what() + "\n" + canonical);
  }
  file.device.displacements.resize(1);
  try {
    check_stroke(file.device);
  } catch (const BadSection& trouble) {
    if (explain(trouble, file).empty()) found("a drawing is refused without words");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  try {
    read(text_of(bytes, size));
  } catch (const BadDevice& refused) {
    if (std::string(refused.what()).rfind("fuzzed.toml", 0) != 0)
      found(std::string("a refusal without its place: ") + refused.what());
  }
  return 0;
}
