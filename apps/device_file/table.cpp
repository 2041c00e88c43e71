// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/table.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include "apps/device_file/nearest_name.hpp"
#include "materials/detail/deep_keys.hpp"
#include "materials/detail/limited_text.hpp"
#include "materials/detail/one_line.hpp"

namespace coilpull {

namespace {

constexpr std::size_t longest_quote = 60;  // letters: a quoted value stays on the line of its message

/// The byte at which the column-th letter (from 1, UTF-8) starts; the end when the line is shorter.
std::size_t byte_of_column(const std::string& line, std::size_t column) {
  std::size_t letter = 0;
  for (std::size_t i = 0; i < line.size(); ++i)
    if ((static_cast<unsigned char>(line[i]) & 0xC0) != 0x80 && ++letter == column) return i;
  return line.size();
}

std::string blanks_closed_up(const std::string& words) {
  std::string closed;
  for (const char c : words) {
    const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!blank)
      closed += c;
    else if (!closed.empty() && closed.back() != ' ')
      closed += ' ';
  }
  return closed;
}

std::string kind_of(const toml::node& node) {
  if (node.is_table()) return "a table";
  if (node.is_array()) return "a list";
  if (node.is_string()) return "a text";
  if (node.is_boolean()) return "true or false";
  if (node.is_number()) return "a number";
  return "a date or time";
}

/// "inner_radius" of "inner_radius_mm": so that r_mm is never taken for a misspelt z_mm.
std::string without_unit(const std::string& key) {
  const std::size_t bar = key.rfind('_');
  const bool has_unit = bar != std::string::npos && bar > 0 && key.size() - bar <= 4;
  return has_unit ? key.substr(0, bar) : key;
}

bool before(const toml::source_position& a, const toml::source_position& b) {
  return a.line != b.line ? a.line < b.line : a.column < b.column;
}

}  // namespace

std::string SourceText::quote(const toml::source_region& region) const {
  if (region.begin.line == 0 || region.begin.line > lines.size()) return "";
  std::string words;
  const std::size_t last = std::min<std::size_t>(region.end.line, lines.size());
  for (std::size_t n = region.begin.line; n <= last; ++n) {
    const std::string& line = lines[n - 1];
    const std::size_t from = n == region.begin.line ? byte_of_column(line, region.begin.column) : 0;
    const std::size_t to = n == last ? byte_of_column(line, region.end.column) : line.size();
    words += line.substr(from, std::max(from, to) - from) + "\n";
  }
  words = blanks_closed_up(words);
  if (!words.empty() && words.back() == ' ') words.pop_back();
  const std::size_t cut = byte_of_column(words, longest_quote + 1);
  return cut == words.size() ? words : words.substr(0, cut) + "...";
}

std::string text_of_file(const std::filesystem::path& path, const std::string& kind) {
  const Place place{path.string()};
  if (std::filesystem::is_directory(path)) refuse(place, "is a folder, not " + kind + ".");
  std::ifstream stream(path, std::ios::binary);
  if (!stream) refuse(place, std::filesystem::exists(path) ? "cannot be opened." : "there is no such file.");
  const auto text = detail::limited_text(stream, detail::most_bytes_of_description);
  if (!text)
    refuse(place, "is larger than 4 MiB, or cannot be read.", "Name " + kind + ", a text of some kilobytes.");
  return *text;
}

SourceText source_text(std::string_view text, const std::string& file_name) {
  SourceText source{file_name, {}};
  std::istringstream stream{std::string(text)};
  for (std::string line; std::getline(stream, line);) source.lines.push_back(line);
  return source;
}

toml::table parsed_toml(std::string_view text, const SourceText& source) {
  if (const std::size_t line = detail::line_of_deep_key(text))
    refuse({source.file_name, static_cast<int>(line)},
           "a key has more than " + std::to_string(detail::most_key_parts) + " parts.",
           "No key here has more than a handful, like core.sleeve.tube.outer_radius_mm.");
  try {
    return toml::parse(text);
  } catch (const toml::parse_error& error) {
    const auto line = error.source().begin.line;
    const Place place{source.file_name, static_cast<int>(line)};
    std::string words(error.description());
    words.erase(std::remove(words.begin(), words.end(), '\n'), words.end());
    const std::string shown = source.quote({{line, 1}, {line, 10000}, nullptr});
    const bool twice = words.find("cannot redefine") != std::string::npos;
    refuse(place, "cannot be read as TOML. " + words + ".",
           (shown.empty() ? "" : "The line is: " + shown + "\n  ") +
               (twice ? "Each key and each header may stand once."
                      : "Texts stand in quotes; numbers have a decimal point, no comma, no unit."));
  }
}

Table::Table(const toml::table& node, const SourceText& text, Place place)
    : node_(&node), text_(&text), place_(std::move(place)) {}

Value Table::value_of(const toml::key& key, const toml::node& node) const {
  Place place = place_;
  place.key = (place.key.empty() ? "" : place.key + ".") + std::string(key.str());
  place.line = static_cast<int>(key.source().begin.line);
  const bool is_section = node.is_table() && !node.as_table()->is_inline();
  place.value = is_section ? "" : text_->quote(node.source());
  return {place, &node};
}

std::optional<Value> Table::find(std::string_view key) const {
  if (!is_known(key)) known_.emplace_back(key);
  const auto found = node_->find(key);
  if (found == node_->end()) return std::nullopt;
  return value_of(found->first, found->second);
}

Value Table::need(std::string_view key, const std::string& advice) const {
  if (const auto value = find(key)) return *value;
  refuse_missing({std::string(key)}, advice);
}

void Table::refuse_misspelt(const std::vector<std::string>& spellings) const {
  std::vector<std::string> stems;
  stems.reserve(spellings.size());
  for (const std::string& spelling : spellings) stems.push_back(without_unit(spelling));
  for (const auto& [key, value] : in_file_order()) {
    if (is_known(key)) continue;
    if (const auto meant = nearest_name(without_unit(key), stems))
      for (const std::string& spelling : spellings)
        if (without_unit(spelling) == *meant)
          refuse(value.place, "unknown key; did you mean " + spelling + "?");
  }
}

void Table::refuse_missing(const std::vector<std::string>& spellings, const std::string& advice) const {
  refuse_misspelt(spellings);
  Place missing = place_;
  missing.key = (missing.key.empty() ? "" : missing.key + ".") + spellings.front();
  missing.value.clear();
  refuse(missing, "this key is missing.", advice);
}

void Table::refuse_unread_keys(const std::string& fact) const {
  for (const auto& [key, value] : in_file_order()) {
    if (is_known(key)) continue;
    Place place = value.place;
    const bool is_section = place.value.empty();
    if (is_section) place.table = std::exchange(place.key, "");
    const std::string what = is_section ? "unknown table" : fact;
    if (const auto meant = nearest_name(key, known_)) refuse(place, what + "; did you mean " + *meant + "?");
    refuse(place, what + ".", "Known here: " + listed(known_) + ".");
  }
}

bool Table::is_known(std::string_view key) const {
  return std::find(known_.begin(), known_.end(), key) != known_.end();
}

std::vector<std::pair<std::string, Value>> Table::in_file_order() const {
  std::vector<std::pair<toml::source_position, std::pair<std::string, Value>>> found;
  for (const auto& [key, node] : *node_)
    found.push_back({key.source().begin, {std::string(key.str()), value_of(key, node)}});
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return before(a.first, b.first); });
  std::vector<std::pair<std::string, Value>> values;
  values.reserve(found.size());
  for (auto& [position, value] : found) values.push_back(std::move(value));
  return values;
}

double number(const Value& value) {
  const auto read = value.node->is_number() ? value.node->value<double>() : std::nullopt;
  if (!read) {
    const std::string quotes = value.node->is_string() ? " Write it without quotes." : "";
    refuse(value.place, "needs a number, and this is " + kind_of(*value.node) + "." + quotes);
  }
  if (!std::isfinite(*read)) refuse(value.place, "needs a finite number.");
  if (std::fabs(*read) > 1e15) refuse(value.place, "is out of range: no number here can pass 1e15.");
  return *read;
}

std::string text(const Value& value) {
  if (const auto read = value.node->value<std::string>()) {
    if (const std::string why = detail::why_not_one_line(*read); !why.empty()) refuse(value.place, why + ".");
    return *read;
  }
  refuse(value.place, "needs a text in quotes, and this is " + kind_of(*value.node) + ".");
}

std::vector<std::string> text_list(const Value& value) {
  const toml::array* list = value.node->as_array();
  if (list == nullptr) return {text(value)};
  std::vector<std::string> texts;
  for (const toml::node& element : *list) texts.push_back(text({value.place, &element}));
  return texts;
}

bool yes_or_no(const Value& value) {
  if (const auto* read = value.node->as_boolean()) return read->get();
  refuse(value.place, "needs true or false, without quotes.");
}

long whole_number(const Value& value) {
  const double read = number(value);
  if (read != std::floor(read)) refuse(value.place, "needs a whole number.");
  return static_cast<long>(read);
}

namespace {

const toml::table& need_table(const Value& value, const std::string& advice) {
  if (const toml::table* node = value.node->as_table()) return *node;
  refuse(value.place, "needs a table, and this is " + kind_of(*value.node) + ".", advice);
}

}  // namespace

Table section(const Value& value, const SourceText& text, const std::string& example) {
  const toml::table& node =
      need_table(value, "Write the header [" + value.place.key + "] and below it, for example, " + example);
  Place place = value.place;
  place.table += (place.table.empty() ? "" : ".") + std::exchange(place.key, "");
  place.value.clear();
  return Table(node, text, place);
}

Table inline_table(const Value& value, const SourceText& text, const std::string& example) {
  const toml::table& node = need_table(value, "For example " + example);
  Place place = value.place;
  place.value.clear();
  return Table(node, text, place);
}

}  // namespace coilpull
