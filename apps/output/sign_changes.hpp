// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// A displacement where the force on the moving group changes sign.
struct SignChange {
  Measured displacement;  ///< [m]; error: what the force bars and the curve between the rows leave open
  bool holds;             ///< pushed back towards it from both sides; false: pushed away, a turning point
};

/// Along the stroke at set number `current` of the table's currents, by rising displacement. A row whose
/// bar reaches over zero does not say which sign its force has and starts no change. The zero is that of the
/// polynomial through the four rows around it, three or two at an end of the stroke. Its error is the force
/// bar over the slope, the smaller of the polynomial's there and of the line between the rows, and the
/// distance between the zeros of the polynomials through three of the four (of three rows: to that of the
/// line; of two: all that lies between them). A bend of the force that falls between the rows is not seen.
std::vector<SignChange> sign_changes(const ForceTable& table, std::size_t current);

}  // namespace coilpull
