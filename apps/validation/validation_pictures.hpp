// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "apps/output/html_writer.hpp"
#include "apps/validation/check.hpp"

namespace coilpull {

/// Figures with SVG inside, coloured by the page's style: how far ours are off, source by source; then some
/// cases as curves, theirs as lines and ours as dots. A figure without a value is left out.
void draw_figures(HtmlWriter& page, const std::vector<Check>& checks);

}  // namespace coilpull
