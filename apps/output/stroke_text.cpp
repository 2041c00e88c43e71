// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/stroke_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/csv_rows.hpp"
#include "apps/output/heat_text.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::string travel_mm(double metres) {
  return rounded(std::abs(metres) < 1e-9 ? 0 : in_mm(metres), 4) + " mm";
}
std::string percent(double part) { return rounded(100 * part, 3) + " %"; }

std::string end_words(SwitchedEnd end) {
  switch (end) {
    case SwitchedEnd::time_over:
      return "the time asked for is over";
    case SwitchedEnd::left_low:
      return "leaves at the lower end";
    case SwitchedEnd::left_high:
      return "leaves at the upper end";
    case SwitchedEnd::no_current:
      return "STOPPED: no current has the linkage";
    case SwitchedEnd::step_too_small:
      return "STOPPED: steps became too small";
    case SwitchedEnd::too_many_events:
      return "STOPPED: too many events";
  }
  return "";
}

std::string feed_words(const StrokePlan& plan) {
  const Feed& f = plan.setup.feed;
  std::string words = rounded(f.volt, 4) + " V";
  if (f.capacitor_F)
    words += " in " + shortest(as_written(1e6 * *f.capacitor_F)) + " uF, shared by all stages,";
  if (f.limit_A) words += ", at most " + rounded(*f.limit_A, 4) + " A,";
  words +=
      " behind " + rounded(f.ohm + f.bank_ohm, 3) + " ohm; current " + (plan.sense > 0 ? "+" : "-") + "; ";
  words += f.returns ? "it dies away into the supply"
                     : "it dies away against " + rounded(f.takes_over_V, 3) + " V";
  return words;
}

std::string cell(const std::optional<double>& value, double scale, int digits, std::size_t width) {
  std::string words = value ? rounded(std::abs(*value) < 1e-12 ? 0 : *value * scale, digits) : "-";
  return std::string(words.size() < width ? width - words.size() : 1, ' ') + words;
}

std::string stages_text(const StrokeFigures& figures) {
  std::string text =
      "  stage    on ms    at mm   at m/s   off ms    at mm   at m/s   peak A  taken mJ  heat mJ    degC\n";
  for (std::size_t k = 0; k < figures.stages.size(); ++k) {
    const StageFigures& s = figures.stages[k];
    text += cell(static_cast<double>(k + 1), 1, 4, 7) + cell(s.on_s, 1e3, 4, 9) + cell(s.on_at, 1e3, 4, 9) +
            cell(s.speed_on_m_per_s, 1, 4, 9) + cell(s.off_s, 1e3, 4, 9) + cell(s.off_at, 1e3, 4, 9) +
            cell(s.speed_off_m_per_s, 1, 4, 9) + cell(s.peak_A, 1, 4, 9) + cell(s.delivered_J, 1e3, 4, 10) +
            cell(s.heat_J, 1e3, 4, 9) + cell(s.degC, 1, 4, 8) + "\n";
  }
  return text;
}

std::string energy_text(const StrokeEnergy& e) {
  const auto mJ = [](double joule) { return rounded(std::abs(joule) < 1e-12 ? 0 : 1e3 * joule, 5) + " mJ"; };
  double largest = 1e-12;
  for (const double part :
       {e.delivered, e.heat, e.stored, e.kinetic, e.friction, e.spring, e.impacts, e.lifted})
    largest = std::max(largest, std::abs(part));
  return "  Energy: delivered " + mJ(e.delivered) + " = heat " + mJ(e.heat) + " + magnetic " + mJ(e.stored) +
         " + kinetic " + mJ(e.kinetic) + " + friction " + mJ(e.friction) + " + spring " + mJ(e.spring) +
         "\n          + impacts " + mJ(e.impacts) + " + against load " + mJ(e.lifted) + "; it closes to " +
         rounded(std::abs(e.gap()) / largest, 2) + " of the largest.\n";
}

}  // namespace

std::string stroke_text(const StrokePlan& plan, const SwitchedRun& run, const StrokeFigures& figures) {
  std::string text = "  " + feed_words(plan) + ".\n";
  text += "  " + plan.switching + "\n";
  for (const std::string& sentence : plan.assumed) text += "  " + sentence + "\n";
  text += "  From " + travel_mm(plan.start.displacement) + " at " +
          rounded(std::abs(plan.start.speed_m_per_s), 4) + " m/s, " +
          (plan.way > 0 ? "towards +z" : "towards -z") + "; after " + seconds_words(figures.seconds) +
          " at " + travel_mm(run.points.back().state.displacement) + ": " + end_words(run.end) + ".\n";
  text += "  Speed at the end " + rounded(std::abs(figures.speed_m_per_s), 5) + " m/s, between " +
          rounded(figures.low_m_per_s, 4) + " and " + rounded(figures.high_m_per_s, 4) +
          " by bars and stated spread of the force (first order); kinetic energy " +
          rounded(1e3 * figures.kinetic_J, 4) + " mJ.\n";
  if (figures.efficiency)
    text += "  Efficiency: kinetic energy gained over delivered " + percent(*figures.efficiency) +
            (figures.of_stored ? ", over what the bank held " + percent(*figures.of_stored) : "") + ".\n";
  text += "  Peaks: " + rounded(figures.peak_A, 4) + " A after " + seconds_words(figures.peak_A_s) + ", " +
          rounded(figures.peak_V, 4) + " V across a winding, " + rounded(figures.peak_N, 4) + " N, " +
          rounded(figures.fastest_m_per_s, 4) + " m/s, " + rounded(figures.peak_degC, 4) + " degC.\n";
  text += stages_text(figures) + energy_text(run.energy);
  return text;
}

std::string best_text(const BestSwitching& best, const StrokePlan& plain) {
  const auto speed = [](double value) {
    return value < 0 ? "does not leave" : rounded(value, 5) + " m/s at the end";
  };
  std::string text = "Best of " + std::to_string(best.runs) + " strokes: on " + travel_mm(*best.plan.on) +
                     " instead of " + travel_mm(*plain.on) + " (lead " + travel_mm(best.on_lead) + "), off " +
                     travel_mm(*best.plan.off) + " instead of " + travel_mm(*plain.off) + " (lead " +
                     travel_mm(best.off_lead) + ")";
  if (plain.setup.stages.size() > 1)
    text += ", pitch " + travel_mm(best.plan.pitch) + " instead of " + travel_mm(plain.pitch);
  text += ".\n  Plain choice: " + speed(best.plain_m_per_s) + "; best: " + speed(best.best_m_per_s);
  if (best.plain_m_per_s > 0)
    text += ", " + rounded(100 * (best.best_m_per_s / best.plain_m_per_s - 1), 3) + " % more";
  return text + ".\n";
}

std::string row_check_text(const RowCheck& check) {
  return "  Two real stages against the sum of two, " + std::to_string(check.points) +
         " points: they differ by " + rounded(check.worst_N, 3) + " N at most (bars " +
         rounded(check.bar_N, 2) + " N), " + percent(check.part) + " of the peak, at " + travel_mm(check.at) +
         " with " + rounded(check.first_A, 3) + " and " + rounded(check.next_A, 3) + " A.\n";
}

std::string stages_csv(const StrokeFigures& figures) {
  const auto or_nan = [](const std::optional<double>& value, double scale = 1) {
    return value ? *value * scale : std::nan("");
  };
  std::vector<std::vector<double>> rows;
  for (std::size_t k = 0; k < figures.stages.size(); ++k) {
    const StageFigures& s = figures.stages[k];
    rows.push_back({static_cast<double>(k + 1), or_nan(s.on_s), or_nan(s.on_at, 1e3),
                    or_nan(s.speed_on_m_per_s), or_nan(s.off_s), or_nan(s.off_at, 1e3),
                    or_nan(s.speed_off_m_per_s), s.peak_A, s.delivered_J, s.heat_J, s.degC});
  }
  return csv_rows(
      "stage,on_s,on_at_displacement_mm,on_speed_m_per_s,off_s,off_at_displacement_mm,off_speed_m_per_s,"
      "peak_current_A,delivered_J,heat_J,winding_degC",
      rows);
}

}  // namespace coilpull
