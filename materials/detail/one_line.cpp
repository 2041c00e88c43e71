// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/one_line.hpp"

namespace coilpull::detail {

bool turns_direction(std::string_view letter) {
  const std::string_view head = letter.substr(0, 2);
  if (letter.size() < 3) return false;
  const auto last = static_cast<unsigned char>(letter[2]);
  return (head == "\xE2\x80" && last >= 0xAA && last <= 0xAE) ||
         (head == "\xE2\x81" && last >= 0xA6 && last <= 0xA9);
}

bool is_control(std::string_view letter) {
  const auto first = static_cast<unsigned char>(letter[0]);
  const bool c1 = first == 0xC2 && letter.size() > 1 && static_cast<unsigned char>(letter[1]) < 0xA0;
  return first < 0x20 || first == 0x7F || c1;
}

std::string why_not_one_line(std::string_view words, std::size_t most) {
  std::size_t letters = 0;
  for (std::size_t at = 0; at < words.size(); ++at) {
    const std::string_view rest = words.substr(at);
    if (is_control(rest) && rest[0] != '\t')
      return "has a control character, or a line break, as letter " + std::to_string(letters + 1);
    if (turns_direction(rest))
      return "has a character that turns the direction of writing, as letter " + std::to_string(letters + 1);
    if ((static_cast<unsigned char>(words[at]) & 0xC0U) != 0x80U) ++letters;
  }
  if (letters <= most) return "";
  return "has " + std::to_string(letters) + " letters; at most " + std::to_string(most) + " are taken";
}

}  // namespace coilpull::detail
