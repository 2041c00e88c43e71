// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/read_choices.hpp"

#include "apps/device_file/exact_text.hpp"
#include "apps/device_file/keys.hpp"

namespace coilpull {
namespace {

const char* const choices_example =
    "For example [120, 180], [\"demo soft steel\", \"team 13 steel\"] or { from = 120, to = 240, points = 5 "
    "}.";

/// { from, to } and, where `stepped`, points
Choices read_range(const KeyPath& key, const SourceText& text, bool stepped) {
  const Table range = inline_table(key.value, text, "{ from = 120, to = 240, points = 5 }");
  const Value from = range.need("from", "A range has from and to."),
              to = range.need("to", "A range has from and to.");
  Choices choices{key.path, key.value.place, {}, number(from), number(to)};
  if (!(choices.from < choices.to)) refuse(to.place, "has to be greater than from.");
  if (stepped) {
    const std::size_t points = count_of(range.need("points", "How many values, ends included."), 2);
    for (std::size_t k = 0; k < points; ++k) {
      const double part = static_cast<double>(k) / static_cast<double>(points - 1);
      const double value = k + 1 == points ? choices.to : choices.from + part * (choices.to - choices.from);
      choices.values.push_back(toml_rounded(value, 12));
    }
  }
  range.refuse_unread_keys();
  return choices;
}

Choices read_choices(const KeyPath& key, const SourceText& text, bool stepped) {
  if (key.value.node->is_table()) return read_range(key, text, stepped);
  const toml::array* list = key.value.node->as_array();
  if (list == nullptr || list->empty())
    refuse(key.value.place, "needs a list or a range of what it may be.", choices_example);
  Choices choices{key.path, key.value.place, {}};
  for (const toml::node& element : *list) choices.values.push_back(as_toml(element));
  return choices;
}

}  // namespace

std::string as_toml(const toml::node& node) {
  std::string words;
  if (const toml::array* list = node.as_array()) {
    for (const toml::node& element : *list) words += (words.empty() ? "" : ", ") + as_toml(element);
    return "[" + words + "]";
  }
  if (const toml::table* table = node.as_table()) {
    for (const auto& [key, value] : *table)
      words += (words.empty() ? "" : ", ") + std::string(key.str()) + " = " + as_toml(value);
    return "{ " + words + " }";
  }
  if (const auto* text = node.as_string()) return toml_text(text->get());
  if (const auto* truth = node.as_boolean()) return truth->get() ? "true" : "false";
  if (const auto number = node.value<double>(); number && node.is_number()) return toml_number(*number);
  return toml_text("a date or time");  // no key of a device takes one: refused there, with these words
}

std::size_t count_of(const Value& value, long least) {
  const long count = whole_number(value);
  if (count < least || count > static_cast<long>(most_rows))
    refuse(value.place, "has to be a whole number from " + std::to_string(least) + " to " +
                            std::to_string(most_rows) + ".");
  return static_cast<std::size_t>(count);
}

std::vector<Choices> read_all_choices(const std::vector<KeyPath>& keys, const SourceText& text,
                                      bool stepped) {
  std::vector<Choices> all;
  all.reserve(keys.size());
  for (const KeyPath& key : keys) all.push_back(read_choices(key, text, stepped));
  return all;
}

}  // namespace coilpull
