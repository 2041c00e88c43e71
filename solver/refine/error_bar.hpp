// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

namespace coilpull {

/// One quantity of a table at two successive orders, row by row: displacement slow, currents fast.
struct OrderDifferences {
  std::size_t per_displacement;    ///< rows a displacement
  std::vector<double> difference;  ///< value of order p + 1 minus that of order p; NaN: unusable row
  double cancelled;                ///< sum of the absolute parts of a typical difference; 0: not known
  double floor;                    ///< what Newton's method and rounding leave
};

/// Half width of the numerical error bar of every row for the published value of order p + 1:
///     s max( own |difference|, those of the neighbours in displacement and current, 0.3 rms of the table,
///            0.2 cancelled ),  at least floor.
/// The force is quadratic in the field and steel is nonlinear: the usual adjoint estimate misses at leading
/// order, while the difference of two orders is the error of the lower one up to the error of the higher. The
/// difference is signed and may vanish by chance, hence neighbours, the table's rms, and what
/// its parts, weighted by the adjoint (see ForceShares), would add up to without cancelling. NaN stays NaN.
/// The factors were chosen on 45 random devices and judged on others: see tests/README.md.
std::vector<double> error_bars(const OrderDifferences& rows, double safety);

/// s = max(1.5, 2 b / (1 - b)) for b = ratio of successive order differences: with errors that fall by b per
/// order the error left is b / (1 - b) of the difference; twice that, and never below 1.5. b is taken below
/// 0.9.
double safety_for(double ratio);

}  // namespace coilpull
