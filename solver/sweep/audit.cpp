// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/audit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>

#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/refine/order_pair.hpp"
#include "solver/refine/resolution_for.hpp"
#include "solver/sweep/audited_rows.hpp"
#include "solver/sweep/five_points.hpp"

namespace coilpull {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr int shifts[] = {-2, -1, 1, 2};          // in steps
constexpr std::size_t jobs_per_displacement = 5;  // four shifted meshes, and one in place for the linkages

Eigen::VectorXd vector_of(const std::vector<double>& values) {
  return Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

/// Corners as for smaller bars than the table's: they are what energies scatter by.
Resolution resolution_of(const ForceTable& table, const AuditOptions& options) {
  constexpr double widest = 1e-3;  // tables with wider bars are audited like this one
  Resolution resolution = resolution_for(options.per_bar * std::min(table.tolerance_reached, widest));
  resolution.fineness = options.fineness;
  return resolution;
}

/// A row under audit: each job fills its own places.
struct Figures {
  FivePoints along_z;
  std::vector<FivePoints> along_current;  ///< per circuit
  std::size_t circuit;                    ///< the one whose current is varied
  std::string trouble[jobs_per_displacement];
};

void fill(FivePoints& points, std::size_t place, const OrderPair& pair, double slope) {
  points.low[place] = pair.low.coenergy_J;
  points.high[place] = pair.high.coenergy_J;
  points.slope_elsewhere[place] = slope;
}

class Audit {
public:
  Audit(const Device& device, const ForceTable& table, const std::function<bool()>& stop_requested,
        const AuditOptions& options)
      : device_(device),
        table_(table),
        stop_requested_(stop_requested),
        options_(options),
        resolution_(resolution_of(table, options)),
        places_(rows_to_audit(table)) {
    std::size_t next = 0;
    for (const AuditedDisplacement& place : places_) {
      steps_.push_back(step_at(device_.displacements[place.displacement]));
      const FivePoints along_z{steps_.back(), {}, {}, {}};
      std::vector<FivePoints> along_current;
      for (std::size_t k = 0; k < device.circuits.size(); ++k)
        along_current.push_back({current_step(k), {}, {}, {}});
      figures_.emplace_back(place.rows.size(), Figures{along_z, along_current, 0, {}});
      for (Figures& row : figures_.back())
        if (!device.circuits.empty()) row.circuit = next++ % device.circuits.size();
    }
  }

  std::size_t jobs() const { return jobs_per_displacement * places_.size(); }

  void work(std::size_t job, Mesher& mesher) {
    const std::size_t place = job / jobs_per_displacement, which = job % jobs_per_displacement;
    std::string trouble;
    try {
      if (stop_requested_ && stop_requested_())
        trouble = "stopped before its audit";
      else if (which < 4 && moves())
        solve_shifted(place, which, mesher);
      else if (which == 4 && !device_.circuits.empty())
        solve_in_place(place, mesher);
    } catch (const std::exception& failed) {  // no mesh, a broken matrix: told in the rows
      trouble = failed.what();
    }
    if (!trouble.empty())
      for (Figures& row : figures_[place]) row.trouble[which] = trouble;
  }

  EnergyAudit result() const {
    EnergyAudit all{{}, left_out()};
    for (std::size_t place = 0; place < places_.size(); ++place)
      for (std::size_t i = 0; i < places_[place].rows.size(); ++i)
        all.rows.push_back(judged(places_[place].rows[i], figures_[place][i]));
    return all;
  }

private:
  bool moves() const { return !device_.moving.empty(); }

  std::string left_out() const {
    if (places_.empty()) return "no row is usable";
    std::string what = moves() ? "" : "the force: no part moves";
    if (device_.circuits.empty())
      what += std::string(what.empty() ? "" : "; ") + "flux linkages: there is no circuit";
    return what;
  }

  /// As long as clearance and radii allow.
  double step_at(double displacement) const {
    const double radius = 3 * blending_length(device_), clearance = clearance_at(device_, displacement);
    const double step = options_.per_radius * radius;
    return std::isnan(clearance) ? step : std::min(step, options_.per_clearance * clearance);
  }

  double current_step(std::size_t circuit) const {
    double largest = 0;
    for (const std::vector<double>& currents : device_.currents_A)
      largest = std::max(largest, std::abs(currents[circuit]));
    return options_.per_current * (largest > 0 ? largest : 1.0);
  }

  PairSolver solver_at(double displacement, Mesher& mesher) const {
    const auto mesh = std::make_shared<Mesh>(mesher.mesh(section_at(device_, displacement, resolution_)));
    return PairSolver(mesh, device_, table_.order - 1, resolution_.outer_ratio);
  }

  double displacement_of(std::size_t place) const {
    return device_.displacements[places_[place].displacement];
  }

  void solve_shifted(std::size_t place, std::size_t which, Mesher& mesher) {
    PairSolver solver = solver_at(displacement_of(place) + shifts[which] * steps_[place], mesher);
    std::unique_ptr<OrderPair> before;
    for (std::size_t i = 0; i < figures_[place].size(); ++i) {
      const Eigen::VectorXd currents = vector_of(table_.rows[places_[place].rows[i]].currents_A);
      auto pair = std::make_unique<OrderPair>(solver.solve(currents, before.get()));
      fill(figures_[place][i].along_z, which, *pair, pair->force_high_N);
      if (pair->usable)
        before = std::move(pair);
      else
        figures_[place][i].trouble[which] = "Newton's method gave up";
    }
  }

  void solve_in_place(std::size_t place, Mesher& mesher) {
    PairSolver solver = solver_at(displacement_of(place), mesher);
    std::unique_ptr<OrderPair> before;
    for (std::size_t i = 0; i < figures_[place].size(); ++i) {
      const Eigen::VectorXd currents = vector_of(table_.rows[places_[place].rows[i]].currents_A);
      auto pair = std::make_unique<OrderPair>(solver.solve(currents, before.get()));
      Figures& row = figures_[place][i];
      if (!pair->usable ||
          !vary_current(solver, *pair, currents, row.circuit, row.along_current[row.circuit]))
        row.trouble[4] = "Newton's method gave up";
      if (pair->usable) before = std::move(pair);
    }
  }

  /// Four fields around one, from the nearest out: each starts on the straight line through two others.
  bool vary_current(PairSolver& solver, const OrderPair& middle, Eigen::VectorXd currents,
                    std::size_t circuit, FivePoints& points) const {
    const Eigen::Index k = static_cast<Eigen::Index>(circuit);
    const double at = currents[k];
    const auto solve = [&](std::size_t place, const OrderPair& near, const OrderPair* before) {
      currents[k] = at + shifts[place] * points.step;
      OrderPair pair = solver.solve(currents, &near, before, 1);
      fill(points, place, pair, pair.high.linkage_Wb[k]);
      return pair;
    };
    const OrderPair above = solve(2, middle, nullptr), below = solve(1, middle, &above);
    return above.usable && below.usable && solve(3, above, &middle).usable && solve(0, below, &middle).usable;
  }

  AuditedRow judged(std::size_t row, const Figures& figures) const {
    const Measurement& of_table = table_.rows[row];
    AuditedRow audited{row, figures.along_z.step, {nan, nan}, nan, {}, {}, {}};
    const auto bars = [](const Measured& a, const Measured& b) {
      const double apart = std::abs(a.value - b.value);
      return apart == 0 ? 0 : apart / std::hypot(a.error, b.error);
    };
    std::string trouble;
    for (std::size_t which = 0; which < 4 && trouble.empty(); ++which) trouble = figures.trouble[which];
    if (trouble.empty() && moves()) {
      audited.force_N = slope_of(figures.along_z, Meshes::four);
      audited.force_bars = bars(of_table.force_N, audited.force_N);
    } else if (moves()) {
      audited.why = "force: " + trouble;
    }
    const std::string& in_place = figures.trouble[4];
    if (!in_place.empty()) audited.why += (audited.why.empty() ? "" : "; ") + ("flux linkage: " + in_place);
    for (std::size_t k = 0; k < device_.circuits.size(); ++k) {
      const FivePoints& points = figures.along_current[k];
      audited.current_steps_A.push_back(points.step);
      const bool varied = in_place.empty() && k == figures.circuit;
      audited.linkage_Wb.push_back(varied ? slope_of(points, Meshes::one) : Measured{nan, nan});
      audited.linkage_bars.push_back(bars(of_table.linkage_Wb[k], audited.linkage_Wb.back()));
    }
    return audited;
  }

  const Device& device_;
  const ForceTable& table_;
  const std::function<bool()>& stop_requested_;
  const AuditOptions& options_;
  Resolution resolution_;
  std::vector<AuditedDisplacement> places_;
  std::vector<double> steps_;                  ///< per audited displacement [m]
  std::vector<std::vector<Figures>> figures_;  ///< (audited displacements)(rows there)
};

}  // namespace

double worst_bars(const AuditedRow& row) {
  double worst = row.force_bars;
  for (const double bars : row.linkage_bars) worst = std::fmax(worst, bars);
  return worst;
}

EnergyAudit audit(const Device& device, const ForceTable& table, Crew& crew,
                  const std::function<bool()>& stop_requested, const AuditOptions& options) {
  Audit all(device, table, stop_requested, options);
  crew.run(all.jobs(), [&](std::size_t job, Mesher& mesher) { all.work(job, mesher); });
  return all.result();
}

}  // namespace coilpull
