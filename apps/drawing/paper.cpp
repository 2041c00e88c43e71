// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/drawing/paper.hpp"

#include <stdexcept>

namespace coilpull {

PaperChoice choose_paper(const std::function<Extent(int reduction)>& extent_of) {
  static constexpr Paper papers[] = {
      {"A4", 297, 210}, {"A3", 420, 297}, {"A2", 594, 420}, {"A1", 841, 594}, {"A0", 1189, 841}};
  for (const int reduction : {1, 2, 5, 10, 20, 50, 100, 200, 500, 1000}) {
    const Extent extent = extent_of(reduction);
    for (const Paper& paper : papers)
      if (extent.width_mm <= paper.width_mm - filing_margin_mm - margin_mm &&
          extent.height_mm <= paper.height_mm - 2 * margin_mm)
        return {paper, reduction};
  }
  throw std::invalid_argument("the device does not fit on A0 at 1:1000");
}

}  // namespace coilpull
