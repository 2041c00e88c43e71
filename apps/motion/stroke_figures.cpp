// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/motion/stroke_figures.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

/// What is next to a value on either side.
struct Neighbours {
  double below = -INFINITY, above = INFINITY;
  void look(double entry, double value) {
    if (entry <= value) below = std::max(below, entry);
    if (entry >= value) above = std::min(above, entry);
  }
  bool has(double entry) const { return entry == below || entry == above; }
};

/// The widest half width that the spread of the input leaves in the rows around a displacement and a current.
double spread_N(const ForceTable& table, std::size_t circuit, double displacement, double current_A) {
  Neighbours z, i;
  for (const Measurement& row : table.rows) {
    z.look(row.displacement, displacement);
    i.look(row.currents_A[circuit], current_A);
  }
  double widest = 0;
  for (const Measurement& row : table.rows)
    if (row.spread && z.has(row.displacement) && i.has(row.currents_A[circuit]))
      widest =
          std::max({widest, row.spread->high_N - row.force_N.value, row.force_N.value - row.spread->low_N});
  return widest;
}

struct Bands {
  double whole_J = 0, at_fastest_J = 0;
};

Bands bands_of(const StrokePlan& plan, const SwitchedRun& run, const DriveTable& drive,
               const ForceTable& table) {
  Bands bands;
  double fastest = 0, way = 0, last = run.points.front().state.displacement;
  const double step = (drive.to() - drive.from()) / 400;
  const auto circuit = static_cast<std::size_t>(
      std::find(table.circuits.begin(), table.circuits.end(), drive.circuit) - table.circuits.begin());
  for (const StrokePoint& p : run.points) {
    const double z = p.state.displacement;
    way += std::abs(z - last);
    last = z;
    const bool is_fastest = std::abs(p.state.speed_m_per_s) > fastest;
    if (is_fastest) fastest = std::abs(p.state.speed_m_per_s), bands.at_fastest_J = bands.whole_J;
    if (way < step) continue;
    double bar = 0;
    for (std::size_t k = 0; k < plan.setup.stages.size(); ++k) {
      const double seen = z - plan.setup.stages[k].place;
      if (seen < drive.from() || seen > drive.to()) continue;
      bar += drive.force_N(seen, p.windings[k].current_A).error +
             spread_N(table, circuit, seen, p.windings[k].current_A);
    }
    bands.whole_J += bar * way;
    if (is_fastest) bands.at_fastest_J = bands.whole_J;
    way = 0;
  }
  return bands;
}

const StrokePoint& point_at(const SwitchedRun& run, double time_s) {
  const auto at = std::lower_bound(run.points.begin(), run.points.end(), time_s,
                                   [](const StrokePoint& p, double t) { return p.state.time_s < t; });
  return at == run.points.end() ? run.points.back() : *at;
}

void note_switching(const SwitchedRun& run, std::size_t k, const StrokePlan& plan, StageFigures& stage) {
  const auto note = [&](double time_s, auto& s, auto& at, auto& speed) {
    if (s) return;
    const StrokePoint& p = point_at(run, time_s);
    s = time_s, at = p.state.displacement, speed = p.state.speed_m_per_s;
  };
  if (plan.setup.stages[k].first != Switching::off)
    note(run.points.front().state.time_s, stage.on_s, stage.on_at, stage.speed_on_m_per_s);
  for (const StrokeEventAt& e : run.events) {
    if (e.stage != k) continue;
    if (e.event == StrokeEvent::switched_on || e.event == StrokeEvent::switched_reversed)
      note(e.time_s, stage.on_s, stage.on_at, stage.speed_on_m_per_s);
    if (e.event == StrokeEvent::switched_off)
      note(e.time_s, stage.off_s, stage.off_at, stage.speed_off_m_per_s);
  }
}

}  // namespace

StrokeFigures stroke_figures(const StrokePlan& plan, const SwitchedRun& run, const DriveTable& drive,
                             const ForceTable& table) {
  StrokeFigures figures;
  figures.stages.resize(plan.setup.stages.size());
  figures.peak_degC = -HUGE_VAL;
  const double least_way = 1e-3 * (drive.to() - drive.from());
  for (const StrokePoint& p : run.points) {
    figures.peak_N = std::abs(p.force_N) > std::abs(figures.peak_N) ? p.force_N : figures.peak_N;
    figures.fastest_m_per_s = std::max(figures.fastest_m_per_s, std::abs(p.state.speed_m_per_s));
    figures.moved |= std::abs(p.state.displacement - run.points.front().state.displacement) > least_way;
    for (std::size_t k = 0; k < p.windings.size(); ++k) {
      const WindingPoint& w = p.windings[k];
      StageFigures& stage = figures.stages[k];
      if (std::abs(w.current_A) > std::abs(stage.peak_A)) stage.peak_A = w.current_A;
      if (std::abs(w.current_A) > std::abs(figures.peak_A))
        figures.peak_A = w.current_A, figures.peak_A_s = p.state.time_s;
      if (std::abs(w.voltage_V) > std::abs(figures.peak_V)) figures.peak_V = w.voltage_V;
      stage.degC = p.state.windings[k].degC;
      figures.peak_degC = std::max(figures.peak_degC, stage.degC);
    }
  }
  for (std::size_t k = 0; k < figures.stages.size(); ++k) {
    note_switching(run, k, plan, figures.stages[k]);
    figures.stages[k].delivered_J = run.energy.stages[k].delivered;
    figures.stages[k].heat_J = run.energy.stages[k].heat;
  }
  const StrokeState& last = run.points.back().state;
  const double mass = plan.setup.travel.mover.mass_kg, v = last.speed_m_per_s;
  figures.seconds = last.time_s;
  figures.speed_m_per_s = v;
  figures.kinetic_J = mass / 2 * v * v;
  const Bands bands = bands_of(plan, run, drive, table);
  figures.band_J = bands.whole_J;
  figures.fastest_band_J = bands.at_fastest_J;
  figures.low_m_per_s = std::sqrt(std::max(0.0, figures.kinetic_J - figures.band_J) * 2 / mass);
  figures.high_m_per_s = std::sqrt((figures.kinetic_J + figures.band_J) * 2 / mass);
  double gained = run.energy.kinetic;
  if (std::abs(gained) < 1e-12 * run.energy.heat) gained = 0;  // rounding of what came to rest
  if (run.energy.delivered > 0) figures.efficiency = gained / run.energy.delivered;
  if (plan.bank_J) figures.of_stored = gained / *plan.bank_J;
  return figures;
}

}  // namespace coilpull
