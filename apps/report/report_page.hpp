// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/report/report_pictures.hpp"
#include "apps/report/report_topic.hpp"
#include "apps/report/result_folder.hpp"

namespace coilpull {

/// What a report shows beside the results themselves.
struct ReportContents {
  ReportPicture drawing;
  std::vector<ReportPicture> steels = {}, fields = {};
  /// In the order in which they are to be read, between flux linkage and materials.
  std::vector<ReportTopic> topics = {};
  std::string why_no_topics = {};        ///< what the device file lacks for advice; empty: nothing
  std::optional<CsvFile> variants = {};  ///< a variants.csv
};

/// One HTML file that needs nothing else: no network, scripts and pictures inside, every word of the files
/// escaped.
std::string report_page(const ResultFolder& results, const ReportContents& contents);

}  // namespace coilpull
