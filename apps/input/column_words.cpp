// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/input/column_words.hpp"

#include <algorithm>
#include <cctype>
#include <initializer_list>
#include <utility>

#include "materials/constants.hpp"

namespace coilpull {
namespace {

struct Unit {
  ColumnKind kind;
  const char* word;
  double in_si;
  bool is_listed;  ///< in messages
};

constexpr double pound = 0.45359237;  // kg, exact by definition

const std::vector<Unit> units = {{ColumnKind::displacement, "mm", 1e-3, true},
                                 {ColumnKind::displacement, "m", 1, true},
                                 {ColumnKind::displacement, "in", 0.0254, true},
                                 {ColumnKind::displacement, "um", 1e-6, true},
                                 {ColumnKind::current, "A", 1, true},
                                 {ColumnKind::current, "mA", 1e-3, true},
                                 {ColumnKind::force, "N", 1, true},
                                 {ColumnKind::force, "mN", 1e-3, true},
                                 {ColumnKind::force, "kN", 1e3, true},
                                 {ColumnKind::force, "gf", 1e-3 * standard_gravity, true},
                                 {ColumnKind::force, "kgf", standard_gravity, true},
                                 {ColumnKind::force, "lbf", pound* standard_gravity, true},
                                 {ColumnKind::force, "g", 1e-3 * standard_gravity, false},
                                 {ColumnKind::force, "kg", standard_gravity, false},
                                 {ColumnKind::field, "T", 1, true},
                                 {ColumnKind::field, "mT", 1e-3, true},
                                 {ColumnKind::field, "G", 1e-4, true},
                                 {ColumnKind::inductance, "H", 1, true},
                                 {ColumnKind::inductance, "mH", 1e-3, true},
                                 {ColumnKind::inductance, "uH", 1e-6, true}};

std::string small_letters(std::string word) {
  for (char& c : word) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return word;
}

void replace_all(std::string& text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
}

std::vector<std::string> with_gram_force_in_one(const std::vector<std::string>& words) {
  std::vector<std::string> joined;
  for (const std::string& word : words) {
    const std::string before = joined.empty() ? "" : small_letters(joined.back());
    if (small_letters(word) == "force" && (before == "gram" || before == "kilogram"))
      joined.back() = before == "gram" ? "gf" : "kgf";
    else
      joined.push_back(word);
  }
  return joined;
}

bool is_one_of(const std::string& word, std::initializer_list<const char*> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool tells_uncertainty(const std::string& word) {
  return is_one_of(word, {"uncertainty", "error", "sigma", "u"});
}

bool is_filler(const std::string& word) { return is_one_of(word, {"in", "of", "the", "at"}); }

ColumnKind kind_for(const std::string& word) {
  if (is_one_of(word, {"displacement", "position", "shift", "travel", "stroke"}))
    return ColumnKind::displacement;
  if (is_one_of(word, {"current", "i"})) return ColumnKind::current;
  if (is_one_of(word, {"force", "f"})) return ColumnKind::force;
  if (is_one_of(word, {"b", "bz", "field"})) return ColumnKind::field;
  if (is_one_of(word, {"inductance", "l"})) return ColumnKind::inductance;
  return ColumnKind::nothing;
}

}  // namespace

std::vector<std::string> words_of_header(std::string header) {
  for (const char* micro : {"\xC2\xB5", "\xCE\xBC"}) replace_all(header, micro, "u");
  std::vector<std::string> words;
  std::string word;
  for (const char c : header + " ") {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) || byte >= 0x80)
      word += c;
    else if (!word.empty())
      words.push_back(std::exchange(word, {}));
  }
  return with_gram_force_in_one(words);
}

ColumnWords column_words(const std::string& header) {
  const std::vector<std::string> words = words_of_header(header);
  ColumnWords read;
  std::size_t first = 0;
  if (!words.empty() && tells_uncertainty(small_letters(words.front()))) {
    read.uncertainty = true;
    for (++first; first < words.size() && is_filler(small_letters(words[first]));) ++first;
  }
  if (first >= words.size()) return read;
  read.kind = kind_for(small_letters(words[first]));
  if (read.kind == ColumnKind::nothing) return read;

  std::size_t unit_at = words.size();
  for (std::size_t i = words.size() - 1; i > first && unit_at == words.size(); --i)
    for (const Unit& unit : units)
      if (unit.kind == read.kind && words[i] == unit.word)
        read.unit = unit.word, read.in_si = unit.in_si, unit_at = i;
  for (std::size_t i = first + 1; i < words.size(); ++i) {
    const std::string word = small_letters(words[i]);
    const bool is_direction = read.kind == ColumnKind::field && i == first + 1 && word == "z";
    if (tells_uncertainty(word))
      read.uncertainty = true;
    else if (i != unit_at && !is_direction && !is_filler(word))
      read.of += (read.of.empty() ? "" : "_") + word;
  }
  return read;
}

std::string units_of(ColumnKind kind) {
  std::string list;
  for (const Unit& unit : units)
    if (unit.kind == kind && unit.is_listed) list += (list.empty() ? "" : ", ") + std::string(unit.word);
  return list;
}

}  // namespace coilpull
