// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "apps/input/csv_file.hpp"
#include "materials/bh_curve.hpp"

namespace coilpull {

struct BhFilePoint {
  std::size_t line;  ///< in the file; 0: (0, 0), added
  double h_A_per_m, b_T;
};

/// Points of a magnetization curve from a person's file, from weak to strong field as they stand.
struct BhFile {
  std::string name;
  std::vector<BhFilePoint> points;  ///< the first is (0, 0)
  std::vector<std::string> notes;   ///< what was done to them on the way
};

/// A column of H in A/m, kA/m, Oe or kOe, and one of B or of J (also called B-H or polarization) in T, mT, G
/// or kG, each named with its unit in the header; other columns are passed over.
/// @throws BadCsv  a column or a unit is missing or unknown, a cell is empty, negative or impossible, a
/// remanence at
///   H = 0, fewer than two points above zero
BhFile read_bh_file(const CsvFile& file);

/// A point that no magnetization curve can go through after the one before.
struct PointFault {
  std::size_t line;
  std::string words;  ///< "H = 120 A/m, B = 1.1 T: B falls; line 6 has 1.2 T."
};

/// Points that fall, repeat, or lie below slope mu0.
std::vector<PointFault> faults_of(const BhFile& file);

/// @throws BadCsv  one line a fault, at most ten, when there is one
void refuse_faults(const BhFile& file);

}  // namespace coilpull
