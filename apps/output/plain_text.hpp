// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull {

/// A line of valid UTF-8 (RFC 3629): control characters, and those that turn the direction of writing, become
/// blanks, bytes that are no UTF-8 become "?".
std::string plain_text(const std::string& words);

/// The same of each line: what a terminal is told about somebody else's file does nothing to the terminal.
std::string plain_lines(const std::string& words);

void drop_last_letter(std::string& utf8);

/// For the text between two tags: & < > written as entities. The text is plain_text().
std::string escaped_for_xml(const std::string& plain);

}  // namespace coilpull
