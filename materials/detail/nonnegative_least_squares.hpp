// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>

namespace coilpull::detail {

/// x >= 0 with the least |a x - b|: Lawson and Hanson, Solving Least Squares Problems (1974), algorithm NNLS
/// (citation from memory). Columns of a should be of like size.
Eigen::VectorXd nonnegative_least_squares(const Eigen::MatrixXd& a, const Eigen::VectorXd& b);

}  // namespace coilpull::detail
