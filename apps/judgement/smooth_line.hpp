// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "solver/measure/measurement.hpp"

namespace coilpull {

/// A smooth function known at nodes, and how far it can be trusted between them.
/// Between: cubics with common slopes at the nodes, each that of the parabola through a node and its
/// neighbours (Bessel's interpolation; de Boor, A Practical Guide to Splines, 2001, chapter IV). One cell is
/// told by the four nodes around it, so that the steep end of a table does not ring through the rest, and
/// peaks are not cut off as monotone cubics do. Its error: the largest miss when one of these four nodes, an
/// end of the line excepted, is left out and told from the others. Leaving a node out doubles the spacing and
/// multiplies the error of a resolved function by 8 or so; the whole miss is kept as the error for the sake
/// of unevenly spread nodes. What hides between nodes stays hidden.
class SmoothLine {
public:
  /// @param x  rising, at least one    @param y  as many
  SmoothLine(std::vector<double> x, std::vector<double> y);

  /// Exact at a node. Nothing outside the nodes, or between nodes when there are fewer than three.
  std::optional<Measured> at(double x) const;

  /// The node that x is, to 1e-9 of the whole; else the one below x. x lies within the nodes.
  struct Cell {
    std::size_t below;
    bool is_node;
  };
  std::optional<Cell> cell_of(double x) const;

private:
  std::vector<double> x_, y_;
};

}  // namespace coilpull
