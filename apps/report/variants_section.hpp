// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/input/csv_file.hpp"
#include "apps/output/html_writer.hpp"

namespace coilpull {

/// A variants.csv as a table whose columns sort by mouse and keys. Of more than 500 variants the first 500.
void write_variants(HtmlWriter& page, const CsvFile& variants);

}  // namespace coilpull
