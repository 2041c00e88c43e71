// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "apps/comparison/compare.hpp"
#include "apps/output/curves_picture.hpp"

namespace coilpull {

/// Four ranked lists: peak force, force with the current off, stroke work, current at which the core is full.
/// A difference inside the bars is called none.
std::string comparison_text(const std::vector<SolvedCandidate>& candidates, bool same_meshes);

/// Every row of every table, with its difference to the first candidate where both have that row.
std::string comparison_csv(const std::vector<SolvedCandidate>& candidates);

/// Force against displacement, a curve a candidate, at the currents at which the first is strongest; the band
/// of a pair of bounds reaches from one to the other.
CurvesPicture comparison_picture(const std::vector<SolvedCandidate>& candidates, const std::string& title);

}  // namespace coilpull
