// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <toml++/toml.h>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "apps/device_file/bad_device.hpp"

namespace coilpull {

/// The text that is being read, so that a message can quote it.
struct SourceText {
  std::string file_name;
  std::vector<std::string> lines;

  /// What stands between two places, blanks closed up, cut short with "..." when long.
  std::string quote(const toml::source_region& region) const;
};

/// The bytes of a text file. @throws BadDevice  when it cannot be read; kind: "a device file"
std::string text_of_file(const std::filesystem::path& path, const std::string& kind);

SourceText source_text(std::string_view text, const std::string& file_name);

/// @throws BadDevice  what is no TOML at all: the parser's own words, and the line
toml::table parsed_toml(std::string_view text, const SourceText& source);

/// A value and where it stands. Lives as long as the parsed file.
struct Value {
  Place place;
  const toml::node* node;
};

/// A table under its name in the file. Remembers which keys were asked for, so that a key that nobody
/// asked for can be refused with the one that was probably meant. Lives as long as the parsed file.
class Table {
public:
  Table(const toml::table& node, const SourceText& text, Place place);

  std::optional<Value> find(std::string_view key) const;                 ///< marks the key as known
  bool has(std::string_view key) const { return node_->contains(key); }  ///< does not
  /// @throws BadDevice  when it is not there: "<key> is missing: <advice>", or the misspelt key in its stead
  Value need(std::string_view key, const std::string& advice) const;
  /// @throws BadDevice  when a key that nobody asked for looks like one of the spellings
  void refuse_misspelt(const std::vector<std::string>& spellings) const;
  /// The key is missing; `spellings`: how it could have been written. @throws BadDevice, always
  [[noreturn]] void refuse_missing(const std::vector<std::string>& spellings,
                                   const std::string& advice) const;
  /// @throws BadDevice  for the first key, in file order, that was never asked for
  void refuse_unread_keys(const std::string& fact = "unknown key") const;

  std::vector<std::pair<std::string, Value>> in_file_order() const;  ///< every key and its value
  const Place& place() const { return place_; }
  const SourceText& text() const { return *text_; }

private:
  bool is_known(std::string_view key) const;
  Value value_of(const toml::key& key, const toml::node& node) const;

  const toml::table* node_;
  const SourceText* text_;
  Place place_;  ///< of the header, or of the key that an inline table stands behind
  mutable std::vector<std::string> known_;  ///< keys asked for, in that order
};

/// @throws BadDevice  when the value is of another kind; a number is finite
double number(const Value& value);
std::string text(const Value& value);
std::vector<std::string> text_list(const Value& value);  ///< a list of texts, or one text
bool yes_or_no(const Value& value);
long whole_number(const Value& value);

/// A table under a header of its own, [core] or [core.sleeve], or at the top level as `core = { ... }`.
/// @throws BadDevice  when the value is not a table; example: a line that could stand below the header
Table section(const Value& value, const SourceText& text, const std::string& example);

/// A table in braces behind a key: its own keys are called "<key>.<inner key>" in messages.
/// @throws BadDevice  when the value is not a table; example: how it could look
Table inline_table(const Value& value, const SourceText& text, const std::string& example);

}  // namespace coilpull
