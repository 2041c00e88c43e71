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

/// Whether a device has steel, whose corners leave the field without bounded derivatives.
enum class Steel { no, yes };

/// What the differences of a table are multiplied by to become bars.
struct BarRule {
  double safety;      ///< s
  double neighbours;  ///< weight of the differences of neighbouring rows
  double rms;         ///< weight of the root mean square of the table's differences
  double by_feature;  ///< weight of what the features of the drawing change
};

/// s from b = ratio of successive order differences, taken below 0.9: with errors that fall by b per order
/// the error left is b / (1 - b) of the difference. With steel s = max(1.5, 2 b / (1 - b)): the corners fall
/// more slowly than what b is mostly made of, and take over at last. Without, s = max(0.65, 2 b / (1 - b)):
/// corners of coils and magnets are milder, the error they leave is half the difference. There a row's own
/// difference tells more than those of others, whose errors differ by far, and they count less.
/// Weights and least s were chosen with the scatter's on 60 random devices with steel (seeds 401 to 460) and
/// 100 coils and magnets in air (seeds 1 to 100, closed formulas), each at tolerances of 1, 0.1 and 0.01 %:
/// the truth was inside 2339 of 2340 and all 4500 bars, worst 0.87, 0.93, 1.03 and 0.88, 0.89, 1.00 bars.
/// Other devices judge them: see tests/README.md.
BarRule rule_for(double ratio, Steel steel);

/// Half width of the numerical error bar of every row for the published value of order p + 1:
///     s hypot( max( own |difference|, neighbours' in displacement and current, rms of the table ),
///              by_feature ),  at least floor,
/// each with its weight. Without by_feature neighbours count in full.
/// The force is quadratic in the field and steel is nonlinear: the usual adjoint estimate misses at leading
/// order, while the difference of two orders is the error of the lower one up to the error of the higher. The
/// difference is signed and may vanish by chance, hence neighbours, the table's rms, and by_feature: the
/// adjoint tells what each corner and edge of the drawing changes (see ForceShares, FeatureErrors). Around
/// one corner the shares belong together and keep their signs; what different corners leave has signs of no
/// relation, and only luck makes it cancel: the changes add up as the root of the sum of their squares.
/// NaN stays NaN.
std::vector<double> error_bars(const OrderDifferences& rows, const BarRule& rule);

/// What the change of a value from a mesh to an independent one, finer by 0.8, is multiplied by before it is
/// added in quadrature. An error that falls like h^k is 1 / (1 - 0.8^k) of that change: 3 for k = 1.8, 1.5
/// for k = 5. Corners of steel have k = 4/3 to 2; where the features of the drawing are known, by_feature
/// answers for them, and edges are left.
constexpr double scatter_weight = 3, scatter_weight_with_features = 1.5;

}  // namespace coilpull
