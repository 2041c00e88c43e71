// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/report/report_pictures.hpp"
#include "apps/report/result_folder.hpp"

namespace coilpull {

/// One HTML file that needs nothing else: drawing, curves with values and both bands, fields, materials with
/// sources, winding, limits, cautions, how it was made. Every word that is not ours is escaped.
std::string report_page(const ResultFolder& results, const ReportPicture& drawing,
                        const std::vector<ReportPicture>& steels, const std::vector<ReportPicture>& fields);

}  // namespace coilpull
