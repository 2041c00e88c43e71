// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "apps/drawing/paper.hpp"
#include "apps/output/canvas.hpp"
#include "solver/device/device.hpp"

namespace coilpull {

struct Sheet {
  Canvas canvas;  ///< of the paper's size in points
  PaperChoice paper;
};

/// The device in natural size on paper: dimensioned section, a section of each bobbin, list of parts, a bar
/// of 100 mm to check the printout with.
/// @param spare  added to the length of wire, a fraction
Sheet draw_sheet(const Device& device, double spare);

}  // namespace coilpull
