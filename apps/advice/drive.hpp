// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/motion/fit_coenergy.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// A solved table as one circuit sees it, between its points too: one smooth function, and the bars of the
/// rows.
struct DriveTable {
  std::string circuit;
  std::string others;  ///< "mid at 0 A": what the other circuits do meanwhile; empty: there is no other
  std::vector<CoenergyRow> rows;
  CoenergyFit fit;
  std::vector<double> displacements, currents_A;  ///< of the rows, rising

  double from() const { return displacements.front(); }
  double to() const { return displacements.back(); }
  double least_A() const { return currents_A.front(); }
  double most_A() const { return currents_A.back(); }
  /// The larger of what the table has in either sense.
  double strongest_A() const;

  /// Of every row: how far a function through every second displacement misses its force, a quarter of it.
  /// [N] Splines of degree 5 gain far more than four from halving a step that shows the curve; 0 for the rows
  /// kept.
  std::vector<double> between_N;

  /// The function's force. The bar: the widest of the rows around, wider where the fit leaves its bars;
  /// between displacements of the table also the largest between_N of these rows and the next ones.
  Measured force_N(double displacement, double current_A) const;
  /// What the same current does from one displacement to another: a difference of W'. The bar is that of the
  /// force, all of one sign. [J]
  Measured work_J(double from, double to, double current_A) const;
};

/// @param circuit  empty: the first that varies
/// @throws BadCsv  no such circuit, or fewer than two displacements or currents
DriveTable drive_of(const ForceTable& table, const std::string& circuit);

/// Displacements evenly over the stroke, both ends included. [m]
std::vector<double> along(const DriveTable& drive, std::size_t points);

}  // namespace coilpull
