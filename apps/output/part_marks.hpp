// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "apps/output/margin_notes.hpp"
#include "apps/output/section_view.hpp"

namespace coilpull {

/// Fill and outline of a part, without words.
void draw_body(Canvas& canvas, const DrawnPart& part, const SectionView& view, Halves halves);

/// What is written into a part: its name (with a word on what it is, where there is room), for a coil the
/// sense of a positive current (ring with a dot: towards the reader, cross: away), for a magnet an arrow
/// along its magnetisation. Name beside the drawing when it does not fit: one more callout.
void draw_inside(Canvas& canvas, const Device& device, const DrawnPart& part, const SectionView& view,
                 Halves halves, std::vector<Callout>& callouts);

}  // namespace coilpull
