// SPDX-License-Identifier: GPL-3.0-or-later
// The description beside a table, anybody's JSON: it says something or nothing, and what it calls the device
// stays in the comment of a C header.
#include "apps/exchange/c_header.hpp"
#include "apps/input/table_description.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;

namespace {

/// A header of one cell without its first comment.
std::string code_of_header(const std::string& title) {
  const CoenergyPoint point{};
  const SampledTable table{title, "drive", {}, {0, 1}, {0, 1}, {point, point, point, point}, 0, 0};
  const std::string header = c_header(table, "fuzzed", CNumbers::floating);
  return header.substr(header.find("*/"));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const TableDescription description = read_table_description(text_of(bytes, size));
  if (description.title.size() > 800) found("a title longer than a device may have");
  if (description.order != 0 && (description.order < 3 || description.order > 6))
    found("an order that no table has");
  static const std::string code = code_of_header("plain");
  if (code_of_header(description.title) != code) found("the title leaves the comment of a C header");
  return 0;
}
