// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/report/report_topic.hpp"

namespace coilpull {

std::vector<ReportTopic> topics_of(const Advice& advice, const std::string& title) {
  std::vector<ReportTopic> topics;
  for (const AdviceSection& section : advice_sections(advice, title)) {
    topics.push_back({section.title, advice_head_text(advice), section.words, {}});
    if (section.picture) topics.back().pictures.push_back(picture_of_curves(*section.picture));
  }
  return topics;
}

void write_topic(HtmlWriter& page, const ReportTopic& topic) {
  page.element("p", topic.told_for, {{"class", "quiet"}});
  add_words(page, topic.words);
  for (const ReportPicture& picture : topic.pictures) add_figure(page, picture);
}

}  // namespace coilpull
