// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/calibration_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/number_text.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

using Kind = Parameter::Kind;

double remanence_of(const Device& device, const std::string& magnet) {
  for (const Magnet& one : device.magnets)
    if (one.name == magnet) return std::hypot(one.law.remanence_r_T, one.law.remanence_z_T);
  return nan;
}

/// The number with its uncertainty, or that it is open.
std::string value_line(const Parameter& parameter, const Measured& fitted, const Device& device) {
  const std::string name = "  " + words_for(parameter) + ": ";
  if (std::isnan(fitted.error)) return name + "cannot be told from these measurements\n";
  if (parameter.kind == Kind::offset)
    return name + with_bar({1e3 * fitted.value, 1e3 * fitted.error}) +
           " mm: the true displacement is the one read plus this\n";
  std::string text = name + with_bar(fitted) + " times that of the file";
  if (parameter.kind == Kind::remanence) {
    const double file_T = remanence_of(device, parameter.part);
    text += ", " + with_bar({file_T * fitted.value, file_T * fitted.error}) + " T";
  }
  return text + (parameter.kind == Kind::saturation ? ": J at every H\n" : "\n");
}

/// What would tell two parameters apart.
std::string separating_measurement(const Parameter& a, const Parameter& b) {
  const auto among = [&](Kind kind) { return a.kind == kind || b.kind == kind; };
  if (a.kind == Kind::remanence && b.kind == Kind::remanence)
    return "B_z beside each magnet alone tells its remanence by itself (see coilpull bench)";
  if (a.kind == Kind::saturation && b.kind == Kind::saturation)
    return "forces near one steel and then near the other, at the strongest current, or each steel alone in "
           "its coil";
  if (among(Kind::remanence) && among(Kind::offset))
    return "B_z beside the magnet alone tells the remanence by itself (see coilpull bench); forces on both "
           "sides of "
           "where the force turns round tell the offset";
  if (among(Kind::remanence))
    return "B_z beside the magnet alone tells the remanence by itself (see coilpull bench); forces at "
           "currents that "
           "fill the steel and at none tell the saturation";
  return "forces where they change steeply with the displacement tell the offset;\nforces or inductances at "
         "the "
         "strongest current tell the saturation";
}

std::string separation_lines(const Estimate& estimate, const std::vector<Parameter>& parameters) {
  std::string text;
  for (const std::size_t k : estimate.without_effect)
    text += "The " + words_for(parameters[k]) +
            " changes none of the measured numbers: these data cannot tell it.\n";
  for (const Confusion& pair : estimate.confused) {
    const Parameter &a = parameters[pair.first], &b = parameters[pair.second];
    text += "These data cannot separate " + words_for(a) + " and " + words_for(b) + " (correlation " +
            rounded(pair.correlation, 3) +
            "): only a combination of\nthe two is told. What would separate them:\n" +
            separating_measurement(a, b) + ".\n";
  }
  return text;
}

std::string correlation_lines(const Estimate& estimate, const std::vector<Parameter>& parameters) {
  std::string text;
  for (Eigen::Index k = 0; k < estimate.correlation.rows(); ++k)
    for (Eigen::Index l = 0; l < k; ++l)
      text += "  correlation of " + words_for(parameters[static_cast<std::size_t>(l)]) + " and " +
              words_for(parameters[static_cast<std::size_t>(k)]) + ": " +
              rounded(estimate.correlation(k, l), 2) + "\n";
  return text;
}

const char* unit_of(ColumnKind kind) {
  return kind == ColumnKind::force ? "N" : kind == ColumnKind::field ? "T" : "H";
}

/// rms of model less measured, column by column.
std::string fit_lines(const Calibration& made, const MeasuredModel& model, const MeasuredFile& file) {
  std::string text;
  for (std::size_t column = 0; column < file.columns.size(); ++column) {
    double before = 0, after = 0, count = 0;
    for (std::size_t i = 0; i < model.cells().size(); ++i) {
      if (model.cells()[i].column != column) continue;
      const auto at = static_cast<Eigen::Index>(i);
      before += std::pow(made.before[at] - model.numbers().value[at], 2);
      after += std::pow(made.after[at] - model.numbers().value[at], 2);
      ++count;
    }
    if (count == 0) continue;
    const std::string unit = std::string(" ") + unit_of(file.columns[column].kind);
    text += "  " + file.columns[column].header + ": rms misfit " + rounded(std::sqrt(after / count), 3) +
            unit + ", as the file says " + rounded(std::sqrt(before / count), 3) + unit + "\n";
  }
  const Estimate& estimate = made.estimate;
  text +=
      estimate.noise_estimated
          ? "  Noise was told from the residuals: state an uncertainty in your file to have the fit tested.\n"
          : "  The misfit is " + rounded(estimate.misfit, 2) +
                " of the stated uncertainty (1: as noise alone makes it).\n";
  if (estimate.widened > 1)
    text +=
        "  That is more than noise: something differs that is not among what was fitted, or the uncertainty "
        "is "
        "stated\n  too small. The numbers above are widened by " +
        rounded(estimate.widened, 3) + " for it, which does not make them right.\n";
  return text;
}

double half_width(const Estimate& estimate, std::size_t k) {
  return estimate.half_width[static_cast<Eigen::Index>(k)];
}

}  // namespace

std::string calibration_text(const Calibration& made, const MeasuredModel& model, const MeasuredFile& file,
                             const Device& device) {
  std::string text =
      device.title + "\n" + std::to_string(model.cells().size()) + " numbers of " + file.name + "\n\n";
  if (!made.trouble.empty()) return text + "Nothing was fitted: " + made.trouble + "\n";
  text += "Fitted, all of them together with 95 % within +-:\n";
  const std::vector<Parameter>& parameters = model.parameters();
  for (std::size_t k = 0; k < parameters.size(); ++k)
    text +=
        value_line(parameters[k],
                   {made.estimate.value[static_cast<Eigen::Index>(k)], half_width(made.estimate, k)}, device);
  text += correlation_lines(made.estimate, parameters) + separation_lines(made.estimate, parameters) +
          "\nMisfit:\n" + fit_lines(made, model, file);
  const bool is_open = made.estimate.correlation.size() == 0 && !parameters.empty();
  if (!made.settled && !is_open)
    text += "The fit did not settle in " + std::to_string(made.rounds) +
            " rounds: do not use its numbers. Start from a device file nearer to the truth.\n";
  return text;
}

std::string calibration_csv(const Calibration& made, const MeasuredModel& model) {
  std::string text = "parameter,unit,in_file,fitted,half_width_95_together\r\n";
  for (std::size_t k = 0; k < model.parameters().size(); ++k) {
    const Parameter& parameter = model.parameters()[k];
    const double half = half_width(made.estimate, k);
    const double scale = parameter.kind == Kind::offset ? 1e3 : 1;
    const double value = std::isnan(half) ? nan : made.estimate.value[static_cast<Eigen::Index>(k)];
    text += words_for(parameter) + "," + (parameter.kind == Kind::offset ? "mm" : "") + "," +
            shortest(parameter.start()) + "," + shortest(as_written(scale * value)) + "," +
            shortest(as_written(scale * half)) + "\r\n";
  }
  return text;
}

std::string calibration_points_csv(const Calibration& made, const MeasuredModel& model,
                                   const MeasuredFile& file) {
  std::string text = "line,quantity,unit,measured,model_before,model_after,sigma\r\n";
  for (std::size_t i = 0; i < model.cells().size(); ++i) {
    const MeasuredColumn& column = file.columns[model.cells()[i].column];
    const auto at = static_cast<Eigen::Index>(i);
    const char* const quantity = column.kind == ColumnKind::force   ? "force"
                                 : column.kind == ColumnKind::field ? "B_z"
                                                                    : "inductance";
    text +=
        std::to_string(file.rows[model.cells()[i].row].line) + "," + quantity + "," + unit_of(column.kind);
    for (const double value :
         {model.numbers().value[at], made.before[at], made.after[at], made.estimate.sigma[at]})
      text += "," + shortest(as_written(value));
    text += "\r\n";
  }
  return text;
}

}  // namespace coilpull
