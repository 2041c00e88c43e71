// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

namespace coilpull {

/// One quantity of a table at two successive orders, row by row: displacement slow, currents fast.
struct OrderDifferences {
  std::size_t per_displacement;    ///< rows a displacement
  std::vector<double> difference;  ///< value of order p + 1 minus that of order p; NaN: unusable row
  /// What each difference comes to without cancelling between features; empty: not known.
  std::vector<double> by_feature;
  double floor;  ///< what Newton's method and rounding leave
};

/// Half width of the numerical error bar of every row for the published value of order p + 1:
///     s max( own |difference|, those of the neighbours in displacement and current, 0.3 rms of the table,
///            0.7 by_feature ),  at least floor.
/// The force is quadratic in the field and steel is nonlinear: the usual adjoint estimate misses at leading
/// order, while the difference of two orders is the error of the lower one up to the error of the higher. The
/// difference is signed and may vanish by chance, hence neighbours, the table's rms, and by_feature: the
/// adjoint tells what each corner and edge of the drawing changes (see ForceShares, FeatureErrors). Around
/// one corner the shares belong together and keep their signs; what different corners leave has signs of no
/// relation, and only luck makes it cancel: the changes add up as the root of the sum of their squares.
/// NaN stays NaN. 0.7 was chosen on 60 random devices (seeds 401 to 460) at tolerances of 1, 0.1 and 0.01 %:
/// the least with the truth inside every bar, worst 0.91, 0.87 and 0.97 bars. Other devices judge it: see
/// tests/README.md.
std::vector<double> error_bars(const OrderDifferences& rows, double safety);

/// Whether a device has steel, whose corners leave the field without bounded derivatives.
enum class Steel { no, yes };

/// s from b = ratio of successive order differences, taken below 0.9: with errors that fall by b per order
/// the error left is b / (1 - b) of the difference. With steel s = max(1.5, 2 b / (1 - b)): the corners fall
/// more slowly than what b is mostly made of, and take over at last. Without, s = max(0.5, 4 b / (1 - b)),
/// chosen on 25 random devices of coils and magnets in air against closed formulas.
double safety_for(double ratio, Steel steel);

/// What the change of a value from a mesh to an independent one, finer by 0.8, is multiplied by. An error
/// that falls like h^k is 1 / (1 - 0.8^k) of that change: 3 for k = 1.8. Corners of steel have k = 4/3 to 2,
/// and where they rule, as at the edges of hair gaps, orders differ by too little to tell; the same holds for
/// what coils and magnets in air leave. Most changes are small beside those of the orders, so that this costs
/// little.
constexpr double scatter_weight = 3;

}  // namespace coilpull
