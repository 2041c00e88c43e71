// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

#include "apps/output/html_writer.hpp"
#include "apps/report/report_pictures.hpp"

namespace coilpull {

/// One part of the page: the list of them is its navigation, too.
struct ReportSection {
  std::string id, title;
  std::function<void(HtmlWriter&)> write;  ///< what stands under the title
};

// Pieces that several sections are made of.

void add_figure(HtmlWriter& page, const ReportPicture& picture);
// Text laid out for a screen of letters, line by line; a line that is a CAUTION stands out.
void add_lines(HtmlWriter& page, const std::string& text);  ///< in columns: letters of one width
void add_words(HtmlWriter& page, const std::string& text);  ///< in sentences
/// A caution or warning; head: "Care."
void add_caution(HtmlWriter& page, const std::string& head, const std::string& words);
/// A line of a list of terms; nothing without words.
void add_entry(HtmlWriter& page, const std::string& term, const std::string& words);

}  // namespace coilpull
