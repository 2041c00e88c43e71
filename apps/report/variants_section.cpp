// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/variants_section.hpp"

#include <algorithm>
#include <cstdlib>

#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

constexpr std::size_t most_rows = 500;  ///< a page has to stay small; the file has them all

/// A cell to be read: numbers with five digits; its sort key, all digits, is beside it.
void add_cell(HtmlWriter& page, const std::string& cell) {
  char* end = nullptr;
  const double value = std::strtod(cell.c_str(), &end);
  if (!cell.empty() && *end == '\0')
    page.element("td", cell == "NaN" ? "not known" : rounded(value, 5),
                 {{"class", "number"}, {"data-sort", cell}});
  else
    page.element("td", cell);
}

}  // namespace

void write_variants(HtmlWriter& page, const CsvFile& variants) {
  const std::size_t rows = std::min(variants.records.size(), most_rows);
  page.element(
      "p", (rows < variants.records.size() ? "The first " + std::to_string(rows) + " of " : std::string()) +
               std::to_string(variants.records.size()) +
               " variants, as variants.csv has them with all their digits. A click on the head of a column "
               "sorts by "
               "it, another one the other way.");
  page.open("div", {{"class", "scroll tall"}, {"tabindex", "0"}});
  page.open("table", {{"class", "sortable"}});
  page.open("thead");
  page.open("tr");
  for (const std::string& name : variants.header.cells) {
    page.open("th", {{"scope", "col"}});
    page.element("button", name, {{"type", "button"}});
    page.close();
  }
  page.close();
  page.close();
  page.open("tbody");
  for (std::size_t k = 0; k < rows; ++k) {
    page.open("tr");
    for (std::size_t column = 0; column < variants.header.cells.size(); ++column)
      add_cell(page, variants.cell(variants.records[k], column));
    page.close();
  }
  for (int open = 0; open < 3; ++open) page.close();
}

}  // namespace coilpull
