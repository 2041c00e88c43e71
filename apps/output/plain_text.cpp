// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/plain_text.hpp"

#include <algorithm>
#include <string_view>

#include "materials/detail/one_line.hpp"

namespace coilpull {
namespace {

bool continues(unsigned char byte) { return (byte & 0xC0U) == 0x80U; }

/// Bytes of the letter that starts at `at`; 0 when it is none.
std::size_t letter_length(const std::string& text, std::size_t at) {
  const auto byte = [&](std::size_t i) {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
  };
  const unsigned first = byte(0), second = byte(1);
  if (first < 0x80) return 1;
  std::size_t length = 0;
  if (first >= 0xC2 && first <= 0xDF) length = 2;
  if (first >= 0xE0 && first <= 0xEF) length = 3;
  if (first >= 0xF0 && first <= 0xF4) length = 4;
  for (std::size_t i = 1; i < length; ++i)
    if (!continues(static_cast<unsigned char>(byte(i)))) return 0;
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool no_letter = (first == 0xED && second > 0x9F) || (first == 0xF4 && second > 0x8F);
  const bool not_in_xml = first == 0xEF && second == 0xBF && byte(2) >= 0xBE;  // U+FFFE, U+FFFF
  return overlong || no_letter || not_in_xml ? 0 : length;
}

/// A letter that a terminal or a reader would obey instead of showing it.
bool is_obeyed(std::string_view letter) {
  return detail::is_control(letter) || detail::turns_direction(letter);
}

}  // namespace

std::string plain_text(const std::string& words) {
  std::string plain;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t length = letter_length(words, at);
    if (length == 0)
      plain += '?';
    else if (is_obeyed(std::string_view(words).substr(at, length)))
      plain += ' ';
    else
      plain.append(words, at, length);
    at += length == 0 ? 1 : length;
  }
  return plain;
}

std::string plain_lines(const std::string& words) {
  std::string plain;
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = std::min(words.find('\n', at), words.size());
    plain += plain_text(words.substr(at, end - at));
    if (end < words.size()) plain += '\n';
    at = end + 1;
  }
  return plain;
}

void drop_last_letter(std::string& utf8) {
  while (!utf8.empty() && continues(static_cast<unsigned char>(utf8.back()))) utf8.pop_back();
  if (!utf8.empty()) utf8.pop_back();
}

std::string escaped_for_xml(const std::string& plain) {
  std::string escaped;
  for (const char letter : plain) {
    if (letter == '&')
      escaped += "&amp;";
    else if (letter == '<')
      escaped += "&lt;";
    else if (letter == '>')
      escaped += "&gt;";
    else
      escaped += letter;
  }
  return escaped;
}

}  // namespace coilpull
