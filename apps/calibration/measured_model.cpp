// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/measured_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "materials/detail/nan.hpp"
#include "solver/device/section_at.hpp"

namespace coilpull {
namespace {

constexpr double factor_step = 0.05, offset_step = 2e-4, part_of_clearance = 0.2;

using Set = std::vector<double>;

}  // namespace

MeasuredModel::MeasuredModel(Device device, const MeasuredFile& file, std::vector<Parameter> parameters,
                             Solve solve)
    : device_(std::move(device)), file_(file), parameters_(std::move(parameters)), solve_(std::move(solve)) {
  std::vector<double> values, sigmas;
  std::map<std::size_t, bool> states_uncertainty;
  for (std::size_t row = 0; row < file.rows.size(); ++row)
    for (std::size_t column = 0; column < file.columns.size(); ++column) {
      const auto& number = file.rows[row].results[column];
      if (!number) continue;
      const bool states = states_uncertainty.emplace(column, number->uncertainty.has_value()).first->second;
      if (states != number->uncertainty.has_value())
        refuse_csv({file.name, file.rows[row].line, file.columns[column].header, ""},
                   "the uncertainty is stated in some rows and not in others.",
                   "State it in each row, or in none.");
      cells_.push_back({row, column});
      values.push_back(number->value);
      sigmas.push_back(number->uncertainty.value_or(nan));
      numbers_.column.push_back(column);
      slopes_ |= file.columns[column].kind == ColumnKind::inductance;
    }
  const bool estimated =
      std::any_of(sigmas.begin(), sigmas.end(), [](double sigma) { return std::isnan(sigma); });
  const std::size_t needed = parameters_.size() + (estimated ? 2 : 1);
  if (cells_.size() < needed)
    refuse_csv({file.name},
               std::to_string(cells_.size()) + " measured numbers cannot tell " +
                   std::to_string(parameters_.size()) + " parameters; needed are " + std::to_string(needed) +
                   ".",
               "Measure more, or fit less.");
  numbers_.value = Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
  numbers_.sigma = Eigen::Map<const Eigen::VectorXd>(sigmas.data(), static_cast<Eigen::Index>(sigmas.size()));
  plan_sweeps();
}

void MeasuredModel::plan_sweeps() {
  std::map<double, std::map<Set, std::vector<std::size_t>>> by_displacement;
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    const MeasuredRow& row = file_.rows[cells_[i].row];
    by_displacement[row.displacement][row.currents_A].push_back(i);
  }
  std::map<std::vector<Set>, Sweep> by_currents;
  for (const auto& [displacement, sets] : by_displacement) {
    std::vector<Set> currents;
    for (const auto& set : sets) currents.push_back(set.first);
    Sweep& sweep = by_currents[currents];
    sweep.displacements.push_back(displacement);
    sweep.currents_A = currents;
    for (const auto& set : sets) sweep.cells.push_back(set.second);
  }
  for (auto& sweep : by_currents) sweeps_.push_back(std::move(sweep.second));
}

void MeasuredModel::read(const Measurement& row, const std::vector<std::size_t>& cells,
                         Response& response) const {
  for (const std::size_t i : cells) {
    const MeasuredColumn& column = file_.columns[cells_[i].column];
    Measured value{nan, 0};
    if (column.kind == ColumnKind::force) value = row.force_N;
    if (column.kind == ColumnKind::field) value.value = row.sensors[column.of].bz_T;
    if (column.kind == ColumnKind::inductance && row.slopes)
      value.value = row.slopes->inductance[column.of][column.of];
    if (!std::isfinite(value.value) && response.trouble.empty())
      response.trouble = "line " + std::to_string(file_.rows[cells_[i].row].line) + " of " + file_.name +
                         " could not be solved: " + row.why;
    response.value[static_cast<Eigen::Index>(i)] = value.value;
    response.bar[static_cast<Eigen::Index>(i)] = value.error;
  }
}

Response MeasuredModel::at(const Eigen::VectorXd& values) const {
  Response response{Eigen::VectorXd::Zero(numbers_.value.size()),
                    Eigen::VectorXd::Zero(numbers_.value.size())};
  for (const Sweep& sweep : sweeps_) {
    Device device = device_;
    device.displacements = sweep.displacements;
    device.currents_A = sweep.currents_A;
    const ForceTable table = solve_(with_values(std::move(device), parameters_, values), slopes_);
    for (std::size_t i = 0; i < table.rows.size(); ++i) read(table.rows[i], sweep.cells[i], response);
  }
  return response;
}

Eigen::VectorXd MeasuredModel::start() const {
  Eigen::VectorXd values(static_cast<Eigen::Index>(parameters_.size()));
  for (std::size_t k = 0; k < parameters_.size(); ++k)
    values[static_cast<Eigen::Index>(k)] = parameters_[k].start();
  return values;
}

Eigen::VectorXd MeasuredModel::steps() const {
  double least = std::numeric_limits<double>::infinity();
  for (const Sweep& sweep : sweeps_)
    for (const double displacement : sweep.displacements)
      if (const double clearance = clearance_at(device_, displacement); clearance < least) least = clearance;
  Eigen::VectorXd steps(static_cast<Eigen::Index>(parameters_.size()));
  for (std::size_t k = 0; k < parameters_.size(); ++k)
    steps[static_cast<Eigen::Index>(k)] = parameters_[k].kind == Parameter::Kind::offset
                                              ? std::min(offset_step, part_of_clearance * least)
                                              : factor_step;
  return steps;
}

}  // namespace coilpull
