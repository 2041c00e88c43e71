// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include "solver/measure/measurement.hpp"
#include "solver/motion/coenergy_function.hpp"

namespace coilpull {

/// A row of a table, as one circuit sees it.
struct CoenergyRow {
  double displacement;  ///< [m]
  double current_A;
  Measured force_N;
  Measured linkage_Wb;
  double coenergy_J;
};

struct CoenergyFitOptions {
  /// What the sum of squared differences weighs beside the rows, see fit_coenergy.
  double smoothing = 1e-6;
  /// The fit is repeated on what it has left, so that the rows are met although the differences weigh enough
  /// for the matrix to be solved with all digits (iterated Tikhonov regularisation: Engl, Hanke, Neubauer,
  /// Regularization of Inverse Problems, 1996, section 5.1, from memory).
  int rounds = 20;
};

/// How far the function is from a row, in bars of that row; above 1 it has left the bar.
struct WorstRow {
  double bars = 0;
  std::size_t row = 0;  ///< of the rows that were given
};

/// W'(z, i) stays the same under one of these when every row does, within the bars; then the function does
/// exactly.
enum class Mirror {
  displacement,  ///< W'(z0 + z, i) = W'(z0 - z, i), z0 the middle of the stroke: F changes its sign there
  current,       ///< W'(z, -i) = W'(z, i): no magnet
  both           ///< W'(z0 + z, -i) = W'(z0 - z, i)
};

struct CoenergyFit {
  CoenergyFunction function;
  WorstRow force, linkage, coenergy;
  double coenergy_bar_J;  ///< what the table's bars leave of a difference of coenergy: see fit_coenergy
  std::vector<Mirror> mirrors;
  std::size_t rows_left_out;  ///< not finite, or without a bar above 0
  /// Neither force nor linkage has left a bar.
  bool within_bars() const { return force.bars <= 1 && linkage.bars <= 1; }
};

/// Weighted least squares for the coefficients of W': every row asks dW'/dz = F, dW'/di = linkage, W' =
/// coenergy, each divided by its bar. The coenergy column has no bar; it takes
///   (widest bar of F) * stroke + (widest bar of linkage) * (range of the current),
/// what the integral of F dz + linkage di over the table may be wrong by. Because one function answers all
/// three columns, the fit also shows whether they belong together. What the rows leave open is filled by the
/// smallest differences from place to place: the third of F along z and of the linkage along i, the fourth of
/// F along i and of the linkage along z, in units of their widest bars (a penalised spline: P. H. C. Eilers,
/// B. D. Marx, Statistical Science 11 (1996) 89, here with derivatives). A table too coarse for its device
/// may leave the bars, which the result says. Normal equations by sparse LDL' (Eigen); rounding leaves some
/// 1e-5 of the inductance between the rows.
/// @throws std::invalid_argument  fewer than two displacements or two currents with usable rows
CoenergyFit fit_coenergy(const std::vector<CoenergyRow>& rows, const CoenergyFitOptions& options = {});

}  // namespace coilpull
