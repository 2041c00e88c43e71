// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion/stroke_cautions.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/heat_text.hpp"
#include "apps/output/number_text.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double steel_ohm_m = 1.4e-7;   // plain steel at 20 degC, from memory
constexpr double copper_S_per_m = 58e6;  // IEC 60028, 1925

/// The shortest time that anything was switched on for, or the whole stroke.
double pulse_s(const StrokeFigures& figures) {
  double pulse = figures.seconds;
  for (const StageFigures& stage : figures.stages)
    if (stage.on_s) pulse = std::min(pulse, stage.off_s.value_or(figures.seconds) - *stage.on_s);
  return pulse;
}

void add_diffusion(std::vector<std::string>& words, const DeviceFile& file, const StrokeFigures& figures) {
  const double pulse = pulse_s(figures);
  for (const DiffusionTime& one : diffusion_times(file)) {
    const bool slow = one.most_s > pulse / 5;
    words.push_back((slow ? "EDDY CURRENTS: flux takes " : "Eddy currents: flux takes ") +
                    seconds_words(one.least_s) + " (saturated) to " + seconds_words(one.most_s) +
                    " (steepest) to enter [core." + one.core + "], a pulse lasts " + seconds_words(pulse) +
                    (slow ? ": the core lags behind the current, the true stroke is slower than this."
                          : ": statics hold.") +
                    (one.assumed ? " (Resistivity of plain steel, from memory.)" : ""));
  }
}

/// A thin sheet brakes a magnet most at 2 / (mu0 sigma thickness).
void add_liner(std::vector<std::string>& words, const DeviceFile& file, const StrokeFigures& figures) {
  if (file.device.magnets.empty()) return;
  words.push_back(
      "Rails, liners and bobbins that conduct near the magnet brake it and are not in the numbers: copper 1 "
      "mm "
      "thick most at " +
      rounded(2 / (mu0 * copper_S_per_m * 1e-3), 2) +
      " m/s, aluminium at some 1.6, brass at some 4 times that"
      " (thin sheet, 2/(mu0 sigma thickness); ratios from memory); here the mover ends at " +
      rounded(std::abs(figures.speed_m_per_s), 3) + " m/s.");
}

void add_row(std::vector<std::string>& words, const StrokePlan& plan, const DriveTable& drive,
             const std::optional<double>& part) {
  if (plan.setup.stages.size() < 2) return;
  double peak = 0, edge = 0;
  for (const double z : drive.displacements)
    for (const double i : drive.currents_A) {
      const double force = std::abs(drive.fit.function.at(z, i).force_N);
      peak = std::max(peak, force);
      if (z == drive.from() || z == drive.to()) edge = std::max(edge, force);
    }
  if (edge > 0.01 * peak)
    words.push_back("The table ends where a stage still pulls with up to " + rounded(edge, 3) + " N, " +
                    rounded(100 * edge / peak, 2) +
                    " % of the peak; beyond it the pull is faded out. Widen displacement_mm in [motion].");
  if (part && *part > 0.05)
    words.push_back("STAGES TOO CLOSE: two real stages differ from the sum of two by " +
                    rounded(100 * *part, 2) +
                    " % of the peak force. A wider pitch helps, or a table that reaches farther.");
}

}  // namespace

std::vector<DiffusionTime> diffusion_times(const DeviceFile& file) {
  std::vector<DiffusionTime> times;
  for (const Core& core : file.device.cores) {
    double least = INFINITY, most = 0;  // of mu
    for (int k = 0; k <= 200; ++k) {
      const double mu = 1 / evaluate(core.law, 0.01 * k).dh_db;
      if (!std::isfinite(mu) || !(mu > 0)) continue;
      least = std::min(least, mu), most = std::max(most, mu);
    }
    const auto words = file.words_of.find(core.name);
    const bool known =
        words != file.words_of.end() && words->second.steel && words->second.steel->resistivity_ohm_m;
    const double ohm_m = known ? *words->second.steel->resistivity_ohm_m : steel_ohm_m;
    const Box box = bounding_box(core.outline);
    const bool tube = box.r_from > 0;
    const double b = box.r_to - box.r_from;
    const double scale = (tube ? 4 * b * b / (pi * pi) : b * b / 5.78) / ohm_m;
    times.push_back({core.name, least * scale, most * scale, tube, !known});
  }
  return times;
}

std::vector<std::string> stroke_cautions(const DeviceFile& file, const StrokePlan& plan,
                                         const SwitchedRun& run, const StrokeFigures& figures,
                                         const DriveTable& drive,
                                         const std::optional<double>& row_check_part) {
  std::vector<std::string> words;
  if (!figures.moved)
    words.push_back("IT DOES NOT MOVE, or hardly, from " + rounded(in_mm(plan.start.displacement), 4) +
                    " mm: friction holds it, or nothing pulls there. Start elsewhere (--start-mm); `coilpull "
                    "advise` tells from "
                    "where it moves.");
  std::size_t never = 0;
  for (const StageFigures& stage : figures.stages) never += stage.on_s ? 0 : 1;
  if (never > 0)
    words.push_back("NOT SWITCHED ON: " + std::to_string(never) + " of " +
                    std::to_string(figures.stages.size()) +
                    " stages; the mover did not come there in time, or the order never came.");
  if (run.left_table)
    words.push_back("BEYOND THE TABLE: the current reaches " + rounded(figures.peak_A, 4) +
                    " A, the table ends at " + rounded(drive.least_A(), 4) + " and " +
                    rounded(drive.most_A(), 4) + " A; there the force is a continuation. Widen [current].");
  if (run.end == SwitchedEnd::no_current || run.end == SwitchedEnd::step_too_small ||
      run.end == SwitchedEnd::too_many_events)
    words.push_back("STOPPED EARLY: the integration could not go on; figures are of the part that ran.");
  if (!drive.fit.within_bars())
    words.push_back("The smooth function through the table misses a row by " +
                    rounded(drive.fit.force.bars, 3) + " force bars; the band is widened by that.");
  if (!drive.others.empty()) words.push_back("The other circuits stand still: " + drive.others + ".");
  add_diffusion(words, file, figures);
  add_liner(words, file, figures);
  add_row(words, plan, drive, row_check_part);
  if (plan.bank_J && *plan.bank_J > 1)
    words.push_back("CAUTION: the capacitor holds " + rounded(*plan.bank_J, 3) +
                    " J and keeps what is left; discharge it before touching.");
  if (figures.kinetic_J > 0)
    words.push_back("CAUTION: what leaves flies: a catcher for " + rounded(figures.kinetic_J, 2) +
                    " J stands in its way, eyes do not.");
  return words;
}

}  // namespace coilpull
