// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/output/advice_text.hpp"
#include "apps/report/page_pieces.hpp"

namespace coilpull {

/// A question with its answer in words and pictures: heat, a sensor, whatever was computed beside the table.
struct ReportTopic {
  std::string title;
  std::string told_for;  ///< under the title: for which circuit, with what bars
  std::string words;     ///< lines as the screen shows them
  std::vector<ReportPicture> pictures;
};

/// Switching, holding, sensors, heat and ratings, as coilpull advise tells them.
/// @param title  of the device
std::vector<ReportTopic> topics_of(const Advice& advice, const std::string& title);

void write_topic(HtmlWriter& page, const ReportTopic& topic);

}  // namespace coilpull
