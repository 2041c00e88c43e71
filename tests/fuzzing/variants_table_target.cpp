// SPDX-License-Identifier: GPL-3.0-or-later
// A variants.csv as a report shows it: refused, or no cell of it becomes a tag of the page.
#include "apps/report/variants_section.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  try {
    const CsvFile variants = read_csv_text(text_of(bytes, size), "fuzzed.csv");
    HtmlWriter page;
    write_variants(page, variants);
    const std::string text = page.document("en");
    for (std::size_t at = text.find('<'); at != std::string::npos; at = text.find('<', at + 1))
      for (const char* tag : {"<script", "<img", "<a ", "<style"})
        if (text.compare(at, std::string(tag).size(), tag) == 0) found("a cell became a tag");
    for (const char c : text)
      if (static_cast<unsigned char>(c) < ' ' && c != '\n') found("a control character in a page");
  } catch (const BadCsv&) {
  }
  return 0;
}
