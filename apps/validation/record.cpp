// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/validation/record.hpp"

#include <cmath>
#include <cstdlib>

#include "materials/data_directory.hpp"

namespace coilpull {

const Source* Record::source(const std::string& name, const std::string& words, const std::string& file) {
  return &sources.emplace_back(Source{name, words, file});
}

void Record::add(const Published& published, const std::string& method, const Measured& ours,
                 const Cause& cause) {
  Check check;
  check.source = published.source;
  check.what = published.what;
  check.unit = published.unit;
  check.their_text = published.text;
  check.theirs = std::strtod(published.text.c_str(), nullptr);
  check.their_bar = published.their_bar + half_last_digit(published.text);
  check.certainty = published.certainty;
  check.method = method;
  check.ours = ours.value;
  check.bar = ours.error;
  check.shift = cause.shift;
  check.shift_bar = cause.shift_bar;
  check.reason = cause.reason;
  checks.push_back(check);
}

void Record::by_finite_elements(const Published& published, const Measured& ours, const Cause& cause) {
  add(published, "finite elements", ours, cause);
}

void Record::by_formula(const Published& published, double ours, double bar, const Cause& cause) {
  add(published, "closed formula", {ours, bar}, cause);
}

void Record::not_recomputed(const Published& published, const std::string& reason) {
  add(published, "none", {std::nan(""), std::nan("")}, {0, 0, reason});
}

std::filesystem::path published_path(const std::string& file) {
  return data_directory() / "published" / file;
}

CsvFile read_published(const std::string& file) { return read_csv_file(published_path(file)); }

double number_after(const std::string& words, const std::string& key) {
  const std::size_t at = words.rfind(key);
  return at == std::string::npos ? std::nan("") : std::atof(words.c_str() + at + key.size());
}

}  // namespace coilpull
