// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/audit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <numeric>

#include "materials/detail/nan.hpp"
#include "solver/device/make_problem.hpp"
#include "solver/device/section_at.hpp"
#include "solver/field/field_solver.hpp"
#include "solver/refine/order_pair.hpp"
#include "solver/refine/resolution_for.hpp"
#include "solver/sweep/audited_rows.hpp"
#include "solver/sweep/five_points.hpp"
#include "solver/sweep/vector_of.hpp"

namespace coilpull {
namespace {

constexpr double safety = 1.5;            // scatter is a standard deviation, which one mesh in three exceeds
constexpr int shifts[] = {-2, -1, 1, 2};  // in steps
constexpr const char* gave_up = "Newton's method gave up";
constexpr std::size_t jobs_per_displacement = 5;  // four shifted meshes, and one in place for the linkages

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
  std::array<double, 4> change_J;  ///< of the energies along z from one order to the next
  FivePoints along_current;
  double linkage_change_Wb;  ///< from one order to the next, in place
  std::size_t circuit;       ///< the one whose current is varied
  std::string trouble[jobs_per_displacement];
};

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
      std::vector<Figures> rows;
      for (std::size_t i = 0; i < place.rows.size(); ++i) {
        const std::size_t circuit = device.circuits.empty() ? 0 : next++ % device.circuits.size();
        const double step_A = device.circuits.empty() ? 0 : current_step(circuit);
        rows.push_back({{steps_.back(), {}, {}}, {}, {step_A, {}, {}}, 0, circuit, {}});
      }
      figures_.push_back(std::move(rows));
    }
  }

  std::vector<std::size_t> jobs() const {
    std::vector<std::size_t> all(jobs_per_displacement * places_.size());
    std::iota(all.begin(), all.end(), 0);
    return all;
  }

  /// The jobs of the force at displacements where the audit is less sure than a bar; their meshes get finer.
  std::vector<std::size_t> unsure_jobs() {
    std::vector<std::size_t> again;
    for (std::size_t place = 0; place < places_.size(); ++place) {
      bool unsure = false;
      for (std::size_t i = 0; i < places_[place].rows.size(); ++i) {
        const std::size_t row = places_[place].rows[i];
        unsure |= judged(row, figures_[place][i]).force_N.error > table_.rows[row].force_N.error;
      }
      for (std::size_t which = 0; unsure && which < 4; ++which)
        again.push_back(jobs_per_displacement * place + which);
    }
    resolution_.fineness *= options_.finer;
    resolution_.at_corner /= options_.finer * options_.finer;
    return again;
  }

  void work(std::size_t job, Mesher& mesher) {
    const std::size_t place = job / jobs_per_displacement, which = job % jobs_per_displacement;
    std::string trouble;
    for (Figures& row : figures_[place]) row.trouble[which].clear();
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

  std::shared_ptr<const Mesh> mesh_at(double displacement, Mesher& mesher) const {
    return std::make_shared<Mesh>(mesher.mesh(section_at(device_, displacement, resolution_)));
  }

  double displacement_of(std::size_t place) const {
    return device_.displacements[places_[place].displacement];
  }

  void solve_shifted(std::size_t place, std::size_t which, Mesher& mesher) {
    PairSolver solver(mesh_at(displacement_of(place) + shifts[which] * steps_[place], mesher), device_,
                      table_.order - 1, resolution_.outer_ratio);
    std::unique_ptr<OrderPair> before;
    for (std::size_t i = 0; i < figures_[place].size(); ++i) {
      const Eigen::VectorXd currents = vector_of(table_.rows[places_[place].rows[i]].currents_A);
      std::vector<WeighedPair> near;
      if (before) near.push_back({before.get(), 1});
      auto pair = std::make_unique<OrderPair>(solver.solve(currents, near));
      if (!pair->usable && before) *pair = solver.solve(currents);  // no current, no magnet: zero is exact
      Figures& row = figures_[place][i];
      row.along_z.energy[which] = pair->high.coenergy_J;
      row.along_z.slope_elsewhere[which] = pair->force_high_N;
      row.change_J[which] = pair->high.coenergy_J - pair->low.coenergy_J;
      if (pair->usable)
        before = std::move(pair);
      else
        row.trouble[which] = gave_up;
    }
  }

  FieldOptions options_of(int order) const {
    FieldOptions options;
    options.order = order;
    options.outer_ratio = resolution_.outer_ratio;
    return options;
  }

  void solve_in_place(std::size_t place, Mesher& mesher) {
    const auto mesh = mesh_at(displacement_of(place), mesher);
    FieldSolver low(mesh, make_problem(device_, mesh->region_names), options_of(table_.order - 1));
    FieldSolver high(mesh, low.problem(), options_of(table_.order));
    Eigen::VectorXd start;
    for (std::size_t i = 0; i < figures_[place].size(); ++i) {
      Figures& row = figures_[place][i];
      const Eigen::VectorXd currents = vector_of(table_.rows[places_[place].rows[i]].currents_A);
      Field coarse = low.solve(currents, start);
      if (!coarse.report.usable() && start.size() > 0) coarse = low.solve(currents);
      const Field middle = high.solve(currents, coarse.coefficients);
      const Eigen::Index k = static_cast<Eigen::Index>(row.circuit);
      row.linkage_change_Wb = middle.linkage_Wb[k] - coarse.linkage_Wb[k];
      if (coarse.report.usable()) start = coarse.coefficients;
      if (!coarse.report.usable() || !middle.report.usable() ||
          !vary_current(high, middle, currents, k, row.along_current))
        row.trouble[4] = gave_up;
    }
  }

  /// Four fields around one, from the nearest out: each starts on the straight line through two others.
  bool vary_current(FieldSolver& solver, const Field& middle, Eigen::VectorXd currents, Eigen::Index circuit,
                    FivePoints& points) const {
    const double at = currents[circuit];
    const auto solve = [&](std::size_t place, const Eigen::VectorXd& start) {
      currents[circuit] = at + shifts[place] * points.step;
      Field field = solver.solve(currents, start);
      points.energy[place] = field.coenergy_J;
      points.slope_elsewhere[place] = field.linkage_Wb[circuit];
      return field;
    };
    const Eigen::VectorXd& x = middle.coefficients;
    const Field above = solve(2, x), below = solve(1, 2 * x - above.coefficients);
    const Field top = solve(3, 2 * above.coefficients - x), bottom = solve(0, 2 * below.coefficients - x);
    return above.report.usable() && below.report.usable() && top.report.usable() && bottom.report.usable();
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
      audited.force_N = slope_of(figures.along_z, order_error(figures.change_J, figures.along_z.step));
      audited.force_N.error *= safety;
      audited.force_bars = bars(of_table.force_N, audited.force_N);
    } else if (moves()) {
      audited.why = "force: " + trouble;
    }
    const std::string& in_place = figures.trouble[4];
    if (!in_place.empty()) audited.why += (audited.why.empty() ? "" : "; ") + ("flux linkage: " + in_place);
    for (std::size_t k = 0; k < device_.circuits.size(); ++k) {
      const bool varied = in_place.empty() && k == figures.circuit;
      audited.current_steps_A.push_back(current_step(k));
      audited.linkage_Wb.push_back(varied ? slope_of(figures.along_current, figures.linkage_change_Wb)
                                          : Measured{nan, nan});
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
  const auto run = [&](const std::vector<std::size_t>& jobs) {
    crew.run(jobs.size(), [&](std::size_t k, Mesher& mesher) { all.work(jobs[k], mesher); });
  };
  run(all.jobs());
  run(all.unsure_jobs());
  return all.result();
}

}  // namespace coilpull
