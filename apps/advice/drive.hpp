// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/motion/fit_coenergy.hpp"
#include "solver/sweep/force_table.hpp"

namespace coilpull {

/// How far a function through every second place misses a row that was left out, a quarter of it: splines of
/// degree 5 gain far more than four from halving a step that shows the curve. No more than a straight line
/// between the rows beside it misses: few rows leave such a function free. 0 for the rows kept.
struct Misses {
  double force_N = 0, linkage_Wb = 0;
};

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

  std::vector<Misses> between_displacements;       ///< of every row; every second displacement left out
  std::vector<Misses> between_currents;            ///< likewise of the currents; 0 where there are only two
  std::optional<CoenergyFunction> fewer_currents;  ///< through every second current; none: there are only two

  /// The function's force. The bar: the widest of the rows around, wider where the fit leaves its bars;
  /// between displacements or currents of the table also the largest miss of these rows and the next ones.
  Measured force_N(double displacement, double current_A) const;
  /// The function's linkage, with a bar like that of the force. [Wb]
  Measured linkage_Wb(double displacement, double current_A) const;
  /// The function's incremental inductance. Bar: what the linkage bars of the nearest rows leave of a secant
  /// between them, and a quarter of what leaving out every second current changes; infinite where the table
  /// has two currents, which tell nothing of it. [H]
  Measured inductance_H(double displacement, double current_A) const;
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
