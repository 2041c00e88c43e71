// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace coilpull {

/// One figure in words.
struct FigureWords {
  std::string name;        ///< with its unit: "work_J"
  std::string meaning;     ///< one line
  bool of_stroke = false;  ///< needs a stroke beside the table, see stroke_of
};

const std::vector<FigureWords>& figure_words();
std::vector<std::string> figure_names();
bool is_stroke_figure(const std::string& name);

}  // namespace coilpull
