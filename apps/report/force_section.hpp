// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/input/force_table_file.hpp"
#include "apps/report/page_pieces.hpp"

namespace coilpull {

// What the table holds: curves that answer to pointer and keys, and the numbers.

/// @param on_paper  stands for the curves where nothing can be pointed at
void write_force(HtmlWriter& page, const ForceTableFile& table, const ReportPicture& on_paper);
void write_flux_linkage(HtmlWriter& page, const ForceTableFile& table,
                        const std::vector<ReportPicture>& on_paper);
void write_numbers(HtmlWriter& page, const ForceTableFile& table);

}  // namespace coilpull
