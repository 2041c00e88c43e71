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
  std::vector<double> apart;
};

/// What the differences of a table are multiplied by to become bars.
struct BarRule {
  double safety;      ///< s
  double neighbours;  ///< weight of the differences of neighbouring rows
  double rms;         ///< weight of the root mean square of the table's differences
  double apart;       ///< weight of what features change without cancelling
};

/// Half width of the numerical error bar of every row for the published value of order p + 1:
///     s hypot( max( own |difference|, neighbours' in displacement and current, rms of the table ), apart ),
/// each with its weight. The force is quadratic in the field and steel is nonlinear: the usual adjoint
/// estimate misses at leading order, while the difference of two orders is the error of the lower one up to
/// the error of the higher. The difference is signed and may vanish by chance, hence neighbours, the table's
/// rms, and apart: around one corner the shares belong together and keep their signs; what different corners
/// leave has signs of no relation, and only luck makes it cancel. NaN stays NaN.
std::vector<double> error_bars(const OrderDifferences& rows, const BarRule& rule);

/// Whether a device has steel, whose corners leave the field without bounded derivatives.
enum class Steel { no, yes };

/// A force's bar is hypot(rough, smooth, scatter): what enrichment changes where the field is rough and where
/// it is smooth (see ForceChange) is told apart, since it leaves errors of very different size.
struct ForceBarRule {
  BarRule rough, smooth;
  double scatter;      ///< weight of what an independent mesh changes at the anchors around the row
  double scatter_rms;  ///< and of its root mean square over the anchors
};

/// s where the field is rough: at a corner it goes like distance^lambda, and an energy, and with it the
/// force, errs like p^(-4 lambda) on a mesh that is only enriched (Babuska and Suri, SIAM Review 36 (1994)
/// 578). From order 3 to 4 (3/4)^(4 lambda) is left, and of the difference 0.87 at a right corner of steel
/// (lambda = 2/3), 0.46 at one of a magnet in air (1). s = 1.5 and 0.8 is about twice of that; measured, the
/// middle half of corners leaves 0.4 to 1.1 and 0.44 to 0.58. Where B-H bends, steel has left the whole
/// difference and more. Where the field is smooth each order gains by b, the ratio of successive order
/// differences: s = 0.15 + b / (2 (1 - b)). Where it is rough never less than 2 b / (1 - b), b taken below
/// 0.9: twice the error left where differences fall by b. The weights were chosen on 60 random devices with
/// steel (seeds 401 to 460) and 100 of coils and magnets in air (seeds 1 to 100, closed formulas), each at
/// tolerances of 1, 0.1 and 0.01 %. Other devices judge them: see tests/README.md.
/// @param ratio  b
ForceBarRule force_bar_rule(double ratio, Steel steel);

/// The bar of a flux linkage, whose differences are not told apart: s = max(1.5, 2 b / (1 - b)), without
/// steel max(0.35, 2 b / (1 - b)), and neighbours count in full.
BarRule linkage_bar_rule(double ratio, Steel steel);

/// What the change of a linkage from a mesh to an independent one, finer by 0.8, is multiplied by before it
/// is added in quadrature. An error that falls like h^k is 1 / (1 - 0.8^k) of that change: 3 for k = 1.8.
constexpr double linkage_scatter_weight = 3;

}  // namespace coilpull
