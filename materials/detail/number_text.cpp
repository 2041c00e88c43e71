// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/number_text.hpp"

#include <charconv>

namespace coilpull::detail {

std::string number_text(double value) {
  char text[32];
  return {text, std::to_chars(text, text + sizeof text, value).ptr};
}

}  // namespace coilpull::detail
