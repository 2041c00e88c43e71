// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/editable_text.hpp"

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

#include "apps/device_file/table.hpp"

namespace coilpull {
namespace {

/// Where each line starts, for columns that count letters (UTF-8), both from 1.
class Lines {
public:
  explicit Lines(const std::string& text) : text_(text), starts_{0} {
    for (std::size_t i = 0; i < text.size(); ++i)
      if (text[i] == '\n') starts_.push_back(i + 1);
  }

  std::size_t byte(const toml::source_position& at) const {
    if (at.line == 0 || at.line > starts_.size()) return text_.size();
    std::size_t i = starts_[at.line - 1];
    for (std::size_t letter = 1; i < text_.size() && text_[i] != '\n'; ++i)
      if ((static_cast<unsigned char>(text_[i]) & 0xC0) != 0x80 && letter++ == at.column) break;
    return i;
  }

private:
  const std::string& text_;
  std::vector<std::size_t> starts_;
};

template <class Visit>
void visit_values(const toml::table& table, const std::string& before, const Visit& visit) {
  for (const auto& [key, node] : table) {
    const std::string path = before + std::string(key.str());
    const toml::table* inner = node.as_table();
    if (inner == nullptr || inner->is_inline()) visit(path, node);
    if (inner != nullptr) visit_values(*inner, path + ".", visit);
  }
}

}  // namespace

EditableText::EditableText(std::string text, std::string file_name)
    : text_(std::move(text)), file_name_(std::move(file_name)) {
  const toml::table root = parsed_toml(text_, source_text(text_, file_name_));
  const Lines lines(text_);
  visit_values(root, "", [&](const std::string& path, const toml::node& node) {
    Stretch at{lines.byte(node.source().begin), lines.byte(node.source().end)};
    while (at.to > at.from + 1 && std::string(" \t\r\n").find(text_[at.to - 1]) != std::string::npos) --at.to;
    places_[path] = at;
  });
}

std::vector<std::string> EditableText::paths() const {
  std::vector<std::string> all;
  for (const auto& place : places_) all.push_back(place.first);
  return all;
}

std::optional<double> EditableText::number(const std::string& path,
                                           const std::map<std::string, std::string>& new_values) const {
  std::string words;
  if (const auto changed = new_values.find(path); changed != new_values.end())
    words = changed->second;
  else if (const auto place = places_.find(path); place != places_.end())
    words = text_.substr(place->second.from, place->second.to - place->second.from);
  words.erase(std::remove(words.begin(), words.end(), '_'), words.end());  // 1_000 is a number of TOML
  char* end = nullptr;
  const double value = std::strtod(words.c_str(), &end);
  if (words.empty() || *end != '\0') return std::nullopt;
  return value;
}

std::string EditableText::with(const std::map<std::string, std::string>& new_values) const {
  std::vector<std::pair<Stretch, std::string>> changes;
  for (const auto& [path, words] : new_values) {
    const auto place = places_.find(path);
    if (place == places_.end()) throw std::logic_error("no value at " + path);
    changes.emplace_back(place->second, words);
  }
  std::sort(changes.begin(), changes.end(),
            [](const auto& a, const auto& b) { return a.first.from > b.first.from; });
  std::string text = text_;
  for (const auto& [at, words] : changes) text.replace(at.from, at.to - at.from, words);
  return text;
}

}  // namespace coilpull
