// SPDX-License-Identifier: GPL-3.0-or-later
#include "meshing/size_field.hpp"

#include <algorithm>

#include "meshing/detail/plane.hpp"

namespace coilpull {

double size_at(const SizeField& field, Point at) {
  double size = field.largest;
  for (const SizeSource& source : field.sources)
    if (source.size < size)
      size = std::min(size, source.size + source.growth * detail::to_segment(source.from, source.to, at));
  return size;
}

}  // namespace coilpull
