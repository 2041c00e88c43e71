// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/page_pieces.hpp"

#include <algorithm>
#include <sstream>

#include "apps/output/number_text.hpp"
#include "apps/report/base64.hpp"

namespace coilpull {

void add_figure(HtmlWriter& page, const ReportPicture& picture) {
  page.open("figure");
  page.element("h3", picture.title);
  page.single("img", {{"src", "data:image/png;base64," + base64(picture.png)},
                      {"alt", picture.title + ": " + picture.words},
                      {"width", rounded(picture.width, 6)},
                      {"height", rounded(picture.height, 6)}});
  page.element("figcaption", picture.words);
  page.close();
}

namespace {

/// Each line a block; its indent, less what all lines have, becomes one of the block, so that a line that
/// wraps stays in its column.
void add_each_line(HtmlWriter& page, const std::string& text, const std::string& look) {
  std::size_t common = text.size();
  std::istringstream measured(text);
  for (std::string line; std::getline(measured, line);)
    if (const std::size_t indent = line.find_first_not_of(' '); indent != std::string::npos)
      common = std::min(common, indent);
  page.open("div", {{"class", look}, {"tabindex", "0"}});
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
    const std::string words = line.substr(indent);
    HtmlAttributes attributes;
    if (indent > common && indent < line.size())
      attributes.push_back({"style", "padding-left: " + std::to_string(indent - common + 2) + "ch"});
    if (words.find("   ") != std::string::npos) attributes.push_back({"class", "columns"});
    if (words.rfind("CAUTION:", 0) == 0) attributes.push_back({"class", "care"});
    page.element("div", words.empty() ? " " : words, attributes);
  }
  page.close();
}

}  // namespace

void add_lines(HtmlWriter& page, const std::string& text) { add_each_line(page, text, "lines"); }

void add_words(HtmlWriter& page, const std::string& text) { add_each_line(page, text, "lines words"); }

void add_caution(HtmlWriter& page, const std::string& head, const std::string& words) {
  page.open("div", {{"class", "caution"}});
  page.element("strong", head + " ");
  page.text(words);
  page.close();
}

void add_entry(HtmlWriter& page, const std::string& term, const std::string& words) {
  if (words.empty()) return;
  page.element("dt", term);
  page.element("dd", words);
}

}  // namespace coilpull
