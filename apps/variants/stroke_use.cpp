// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/stroke_use.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>
#include <set>
#include <stdexcept>

#include "apps/input/bad_csv.hpp"
#include "apps/input/solved_rows.hpp"
#include "apps/motion/best_switching.hpp"
#include "apps/motion/stroke_faults.hpp"
#include "apps/motion/stroke_figures.hpp"
#include "apps/output/number_text.hpp"
#include "apps/variants/jobs.hpp"
#include "apps/variants/stroke_refusal.hpp"

namespace coilpull {
namespace {

/// Every row can be used: none is NaN.
bool has_usable_table(const VariantResult& result) {
  return result.status == word_for(RowStatus::ok) || result.status == word_for(RowStatus::tolerance_not_met);
}

bool has_left_ahead(const StrokePlan& plan, const SwitchedRun& run) {
  return run.end == (plan.way > 0 ? SwitchedEnd::left_high : SwitchedEnd::left_low);
}

std::string why_no_exit(const StrokePlan& plan, const SwitchedRun& run, const StrokeFigures& figures) {
  if (has_left_ahead(plan, run)) return "";
  const std::string at = " at " + rounded(in_mm(run.points.back().state.displacement), 4) + " mm";
  switch (run.end) {
    case SwitchedEnd::left_low:
    case SwitchedEnd::left_high:
      return "the mover leaves where it came from";
    case SwitchedEnd::time_over:
      return "the mover does not leave: after " + rounded(1e3 * figures.seconds, 4) + " ms it is" + at;
    case SwitchedEnd::no_current:
    case SwitchedEnd::step_too_small:
    case SwitchedEnd::too_many_events:
      return "the stroke could not be run to its end: it stopped" + at;
  }
  return "";
}

/// Beyond its currents the table is continued, which no bar covers.
std::string beyond_table(const SwitchedRun& run, const DriveTable& drive) {
  double least = 0, most = 0;
  for (const StrokePoint& point : run.points)
    for (const WindingPoint& winding : point.windings)
      least = std::min(least, winding.current_A), most = std::max(most, winding.current_A);
  const bool above = most > drive.most_A();
  return "the current leaves the table: it reaches " + rounded(above ? most : least, 4) +
         " A, the table ends at " + rounded(above ? drive.most_A() : drive.least_A(), 4) +
         " A; widen [current]";
}

/// A speed and the wider side of what the band of the kinetic energy leaves of it.
Measured with_band(double speed, double band_J, double mass_kg) {
  const double squared = speed * speed, reach = 2 * band_J / mass_kg;
  return {speed,
          std::max(std::sqrt(squared + reach) - speed, speed - std::sqrt(std::max(0.0, squared - reach)))};
}

StrokeOutcome outcome_of(const StrokePlan& plan, const SwitchedRun& run, const StrokeFigures& figures) {
  StrokeOutcome outcome{why_no_exit(plan, run, figures)};
  const double mass = plan.setup.travel.mover.mass_kg, band = figures.band_J;
  Figures& all = outcome.figures;
  all["top_speed_m_per_s"] = with_band(figures.fastest_m_per_s, figures.fastest_band_J, mass);
  all["stroke_current_A"] = {std::abs(figures.peak_A), 0};
  all["stroke_voltage_V"] = {std::abs(figures.peak_V), 0};
  all["stroke_degC"] = {figures.peak_degC, 0};
  all["stroke_rise_K"] = {figures.peak_degC - plan.setup.winding.around_degC, 0};
  if (plan.on) all["switched_on_mm"] = {in_mm(*plan.on), 0};
  if (plan.off) all["switched_off_mm"] = {in_mm(*plan.off), 0};
  if (figures.efficiency)
    all["efficiency_percent"] = {100 * *figures.efficiency, 100 * band / run.energy.delivered};
  if (!has_left_ahead(plan, run)) return outcome;
  all["exit_speed_m_per_s"] = with_band(std::abs(figures.speed_m_per_s), band, mass);
  all["exit_energy_J"] = {figures.kinetic_J, band};
  all["exit_ms"] = {1e3 * figures.seconds, 0};
  return outcome;
}

/// Words of an exception about a device that stands in no file, on one line.
std::string one_line(std::string words) {
  for (std::size_t at; (at = words.find("\n  ")) != std::string::npos;) words.replace(at, 3, " ");
  return as_stroke_keys(words);
}

}  // namespace

StrokeOutcome stroke_of(const Variant& variant, const VariantResult& result, const StrokeWish& wish) {
  const DeviceFile file = device_of(variant);
  try {
    refuse_stroke(file, wish.choice, wish.circuit);
    const ForceTable table = solved_rows(read_force_table(read_csv_text(result.table_csv, "stored table")));
    const DriveTable drive = drive_of(table, wish.circuit);
    const auto heat = heat_advice(file, drive);
    StrokePlan plan = plan_stroke(file, table, drive, heat_of_stroke(file, drive, heat), wish.choice);
    if (wish.best) plan = best_switching(file, plan, drive.fit.function, best_options(plan, drive)).plan;
    const SwitchedRun run =
        simulate_switched_stroke(drive.fit.function, plan.setup, plan.start, plan.options);
    if (run.left_table) return {beyond_table(run, drive), {}};
    return outcome_of(plan, run, stroke_figures(plan, run, drive, table));
  } catch (const BadDevice& bad) {
    return {one_line(bad.what()), {}};
  } catch (const BadCsv& bad) {
    return {one_line(bad.what()), {}};
  } catch (const std::invalid_argument& bad) {  // a stroke that its simulation does not take
    return {one_line(bad.what()), {}};
  }
}

std::optional<VariantResult> stored_result(VariantStore& store, const Variant& variant) {
  std::optional<VariantResult> result = store.find(variant.key);
  if (!result) return result;
  if (result->status != "refused") result->figures.insert(variant.pulse.begin(), variant.pulse.end());
  if (variant.stroke_key.empty()) return result;
  const std::optional<StrokeOutcome> stroke = store.find_stroke(variant.stroke_key);
  if (!stroke) return result;
  result->no_exit = stroke->no_exit;
  result->figures.insert(stroke->figures.begin(), stroke->figures.end());
  return result;
}

std::optional<VariantResult> completed_result(VariantStore& store, const Variant& variant,
                                              const std::optional<StrokeWish>& wish) {
  const std::optional<VariantResult> result = store.find(variant.key);
  if (result && wish && has_usable_table(*result) && !store.has_stroke(variant.stroke_key))
    store.add_stroke(variant.stroke_key, variant.key, stroke_of(variant, *result, *wish));
  return stored_result(store, variant);
}

void run_strokes(const std::vector<const Variant*>& variants, const StrokeWish& wish, VariantStore& store,
                 const SolveVariantsOptions& options) {
  std::vector<const Variant*> due;
  std::set<std::string> seen;
  for (const Variant* variant : variants)
    if (!variant->stroke_key.empty() && seen.insert(variant->stroke_key).second &&
        !store.has_stroke(variant->stroke_key))
      due.push_back(variant);
  Jobs jobs(due.size(), options.jobs, options.stop_requested);
  std::mutex mutex;
  std::size_t done = 0;
  const auto table_of = [&](const Variant& variant) {
    const std::lock_guard<std::mutex> lock(mutex);
    return store.find(variant.key);
  };
  const auto keep = [&](const Variant& variant, const std::optional<StrokeOutcome>& outcome) {
    const std::lock_guard<std::mutex> lock(mutex);
    if (outcome) store.add_stroke(variant.stroke_key, variant.key, *outcome);
    if (options.on_progress) options.on_progress(++done, due.size());
  };
  jobs.run([&]() -> Jobs::Worker {
    return [&](std::size_t k) {
      const std::optional<VariantResult> result = table_of(*due[k]);
      const bool runs = result && has_usable_table(*result);
      keep(*due[k], runs ? std::optional<StrokeOutcome>(stroke_of(*due[k], *result, wish)) : std::nullopt);
    };
  });
}

}  // namespace coilpull
