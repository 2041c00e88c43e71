// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/advice/advice.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

/// One question that the advice answers, for the screen, for a page and for files.
struct AdviceSection {
  std::string stem;                           ///< of its files and places in a page: "advice_heat"
  std::string title;                          ///< "Winding and heat"
  std::string words;                          ///< lines, indented under the title
  std::string csv = {};                       ///< empty: nothing was computed
  std::optional<CurvesPicture> picture = {};  ///< none: likewise
};

/// For which circuit it is told, what the bars hold, and where the table is too coarse.
std::string advice_head_text(const Advice& advice);

/// Heat, ratings, a section a sensor, switching, holding, margin; one that cannot be told says what the
/// device file lacks for it. @param title  of the device, over the pictures
std::vector<AdviceSection> advice_sections(const Advice& advice, const std::string& title);

}  // namespace coilpull
