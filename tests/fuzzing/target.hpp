// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

/// What one target does with any bytes: read them or refuse them. Whatever else leaves it (another exception,
/// a signal, an endless loop) is a finding. Called by LLVMFuzzerTestOneInput and by the replay of committed
/// inputs. Terms of the entry point: LLVM, libFuzzer manual, "Fuzz Target".
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size);

namespace coilpull {

inline std::string_view text_of(const std::uint8_t* bytes, std::size_t size) {
  return {reinterpret_cast<const char*>(bytes), size};
}

/// A finding that is no crash by itself: says what went wrong and aborts.
[[noreturn]] void found(const std::string& what);

}  // namespace coilpull
