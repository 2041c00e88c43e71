// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include "apps/bench/solve_function.hpp"
#include "apps/calibration/estimate.hpp"
#include "apps/calibration/parameter.hpp"
#include "apps/input/measured_file.hpp"

namespace coilpull {

/// One number of the person's file.
struct MeasuredCell {
  std::size_t row, column;  ///< of MeasuredFile
};

/// The finite elements asked for what was measured: forces, B_z at sensors and incremental inductances.
/// Displacements with the same currents are solved in one sweep.
class MeasuredModel {
public:
  /// @throws BadCsv  nothing is measured, or a column states the uncertainty of some of its numbers only
  MeasuredModel(Device device, const MeasuredFile& file, std::vector<Parameter> parameters, Solve solve);

  const std::vector<MeasuredCell>& cells() const { return cells_; }
  const MeasuredNumbers& numbers() const { return numbers_; }
  const std::vector<Parameter>& parameters() const { return parameters_; }

  Response at(const Eigen::VectorXd& values) const;
  /// Steps of the parameters over which the model bends little: 5 % of a factor, 0.2 mm of an offset but no
  /// more than a fifth of the least clearance.
  Eigen::VectorXd steps() const;
  Eigen::VectorXd start() const;

private:
  /// Displacements that share their currents, and the cells that each of their rows tells.
  struct Sweep {
    std::vector<double> displacements;
    std::vector<std::vector<double>> currents_A;
    std::vector<std::vector<std::size_t>> cells;  ///< (displacements * currents)
  };

  void plan_sweeps();
  void read(const Measurement& row, const std::vector<std::size_t>& cells, Response& response) const;

  Device device_;
  const MeasuredFile& file_;
  std::vector<Parameter> parameters_;
  Solve solve_;
  std::vector<MeasuredCell> cells_;
  MeasuredNumbers numbers_;
  std::vector<Sweep> sweeps_;
  bool slopes_ = false;
};

}  // namespace coilpull
