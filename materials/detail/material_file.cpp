// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/detail/material_file.hpp"

#include <toml++/toml.h>
#include <algorithm>
#include <fstream>

#include "materials/detail/deep_keys.hpp"
#include "materials/detail/limited_text.hpp"
#include "materials/detail/nearest_name.hpp"
#include "materials/detail/one_line.hpp"
#include "materials/detail/require_number.hpp"

namespace coilpull::detail {

struct MaterialFile::Content {
  toml::table table;
  std::string text;
};

namespace {

std::string place(const std::filesystem::path& path, const toml::source_region& region) {
  const auto line = region.begin.line;
  return path.string() + (line > 0 ? ":" + std::to_string(line) : "") + ": ";
}

}  // namespace

MaterialFile::MaterialFile(const std::filesystem::path& path) : path_(path) {
  if (!std::filesystem::is_regular_file(path)) throw BadMaterial("", path.string() + ": no such file");
  std::ifstream in(path, std::ios::binary);
  const std::optional<std::string> text = limited_text(in, most_bytes_of_description);
  if (!in.is_open() || !text)
    throw BadMaterial("", path.string() + ": cannot be read, or is larger than 4 MiB");
  if (const std::size_t line = line_of_deep_key(*text))
    throw BadMaterial("", path.string() + ":" + std::to_string(line) + ": a key has more than " +
                              std::to_string(most_key_parts) + " parts");
  try {
    content_ = std::make_unique<const Content>(Content{toml::parse(*text), *text});
  } catch (const toml::parse_error& error) {
    throw BadMaterial("",
                      place(path, error.source()) + "not valid TOML: " + std::string(error.description()));
  }
}

MaterialFile::~MaterialFile() = default;

void MaterialFile::refuse(const std::string& key, const std::string& fact) const {
  throw BadMaterial(key, place_of(key, {}) + fact);
}

BadMaterial MaterialFile::placed(const BadMaterial& bad) const {
  return {bad.key, place_of(bad.key, bad.element) + bad.what(), bad.element};
}

std::string MaterialFile::place_of(const std::string& key, std::optional<std::size_t> element) const {
  const toml::node* node = content_->table.get(key);
  if (node == nullptr) return path_.string() + ": ";
  if (element && node->is_array() && *element < node->as_array()->size())
    return place(path_, node->as_array()->get(*element)->source());
  return place(path_, node->source());
}

void MaterialFile::refuse_other_keys(const std::vector<std::string>& allowed) const {
  for (const auto& [key, value] : content_->table) {
    const std::string word(key.str());
    if (std::find(allowed.begin(), allowed.end(), word) != allowed.end()) continue;
    const std::optional<std::string> meant = nearest_name(word, allowed);
    refuse(word, word + ": unknown key" + (meant ? "; did you mean " + *meant + "?" : ""));
  }
}

std::string MaterialFile::text(const std::string& key, const std::string& otherwise) const {
  const toml::node* node = content_->table.get(key);
  if (node == nullptr) return otherwise;
  const std::optional<std::string> value = node->value_exact<std::string>();
  if (!value || value->empty()) refuse(key, key + ": must be a text in quotes, not empty");
  return shown(key, *value);
}

std::string MaterialFile::shown(const std::string& key, std::string words) const {
  std::replace_if(
      words.begin(), words.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
  if (const std::string why = why_not_one_line(words); !why.empty()) refuse(key, key + ": " + why);
  return words;
}

std::optional<double> MaterialFile::number(const std::string& key) const {
  const toml::node* node = content_->table.get(key);
  if (node == nullptr) return {};
  if (!node->is_number()) refuse(key, key + ": must be a number");
  return node->value<double>();
}

std::optional<double> MaterialFile::number_above_0(const std::string& key) const {
  std::optional<double> value = number(key);
  if (value) with_place([&] { require_above(0, key, *value); });
  return value;
}

std::vector<std::string> MaterialFile::texts(const std::string& key) const {
  const toml::node* node = content_->table.get(key);
  if (node == nullptr) return {};
  if (!node->is_array()) refuse(key, key + ": must be a list of texts");
  std::vector<std::string> values;
  for (const toml::node& element : *node->as_array()) {
    const std::optional<std::string> value = element.value_exact<std::string>();
    if (!value) throw placed({key, key + ": must be a list of texts", values.size()});
    values.push_back(shown(key, *value));
  }
  return values;
}

std::vector<double> MaterialFile::numbers(const std::string& key) const {
  const toml::node* node = content_->table.get(key);
  if (node == nullptr) return {};
  if (!node->is_array()) refuse(key, key + ": must be a list of numbers");
  std::vector<double> values;
  for (const toml::node& element : *node->as_array()) {
    if (!element.is_number()) throw placed({key, key + ": must be a list of numbers", values.size()});
    values.push_back(*element.value<double>());
  }
  return values;
}

MaterialWords MaterialFile::words() const {
  const std::string unknown = "not stated";
  MaterialWords words;
  words.name = text("name", stem());
  words.also_called = texts("also_called");
  words.family = text("family", unknown);
  words.source = text("source", "");
  if (words.source.empty())
    refuse("source", "source is missing: say in one line who measured or published the numbers");
  words.certainty = text("certainty", unknown);
  with_place([&] { words.evidence = evidence_of(words.certainty); });
  words.condition = text("condition", unknown);
  words.beyond = text("beyond", unknown);
  words.file = path_;
  words.file_text = content_->text;
  return words;
}

std::vector<std::string> MaterialFile::word_keys() {
  return {"name", "also_called", "family", "source", "certainty", "condition", "beyond"};
}

}  // namespace coilpull::detail
