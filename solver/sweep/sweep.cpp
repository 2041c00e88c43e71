// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/sweep.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <thread>

#include "solver/refine/resolution_for.hpp"
#include "solver/sweep/displacement_rows.hpp"
#include "solver/sweep/table_bars.hpp"

namespace coilpull {
namespace {

constexpr int order = 3;        // p; published is p + 1
constexpr int most_rounds = 4;  // of making the mesh finer where the tolerance is not met

/// Three displacements, evenly spread, whose rows are solved one order below as well.
bool is_anchor(std::size_t index, std::size_t count) {
  return index == 0 || index == count / 2 || index == count - 1;
}

class Sweep {
public:
  Sweep(const Device& device, const SweepOptions& options)
      : device_(device),
        options_(options),
        solved_(device.displacements.size()),
        resolution_(solved_.size(), resolution_for(device.tolerance)) {}

  ForceTable run() {
    std::vector<std::size_t> due(solved_.size());
    for (std::size_t i = 0; i < due.size(); ++i) due[i] = i;
    rows_planned_ = due.size() * device_.currents_A.size();
    for (int round = 0; !due.empty(); ++round) {
      solve(due);
      due.clear();
      if (round + 1 < most_rounds && !stopped()) due = to_be_refined(table());
      rows_planned_ += due.size() * device_.currents_A.size();
    }
    ForceTable result = table();
    mark_wide_bars(result);
    return result;
  }

private:
  bool stopped() const { return options_.stop_requested && options_.stop_requested(); }

  void solve(const std::vector<std::size_t>& due) {
    const std::size_t wanted =
        options_.threads > 0 ? options_.threads : std::max(1u, std::thread::hardware_concurrency());
    std::atomic<std::size_t> next{0};
    std::exception_ptr trouble;
    const auto work = [&] {
      try {
        Mesher mesher(options_.mesher);
        mesher.start();
        for (std::size_t k = next++; k < due.size(); k = next++) solve_one(due[k], mesher);
      } catch (...) {
        const std::lock_guard<std::mutex> lock(mutex_);
        if (!trouble) trouble = std::current_exception();
      }
    };
    std::vector<std::thread> threads;
    for (std::size_t i = 1; i < std::min(wanted, due.size()); ++i) threads.emplace_back(work);
    work();
    for (std::thread& thread : threads) thread.join();
    if (trouble) std::rethrow_exception(trouble);
  }

  void solve_one(std::size_t index, Mesher& mesher) {
    RowsPlan plan;
    plan.order = order;
    plan.resolution = resolution_[index];
    plan.anchors = is_anchor(index, solved_.size()) ? AskAnchors::yes : AskAnchors::no;
    plan.slopes = options_.slopes ? AskSlopes::yes : AskSlopes::no;
    plan.bodies = options_.bodies ? AskBodies::yes : AskBodies::no;
    plan.stop_requested = options_.stop_requested;
    plan.on_row = [this] {
      const std::lock_guard<std::mutex> lock(mutex_);
      ++rows_done_;
      if (options_.on_progress) options_.on_progress(rows_done_, rows_planned_);
    };
    DisplacementRows rows = solve_displacement(device_, device_.displacements[index], mesher, plan);
    const bool was_usable = !solved_[index].rows.empty() && solved_[index].unknowns > 0;
    const bool is_usable = std::any_of(rows.rows.begin(), rows.rows.end(),
                                       [](const Measurement& row) { return !std::isnan(row.force_N.value); });
    if (!was_usable || (is_usable && !stopped())) solved_[index] = std::move(rows);  // a finer try may fail
  }

  ForceTable table() const {
    ForceTable table;
    table.circuits = device_.circuits;
    table.currents_per_displacement = device_.currents_A.size();
    for (const Core& core : device_.cores) table.cores.push_back(core.name);
    for (const Sensor& sensor : device_.sensors) table.sensors.push_back(sensor.name);
    table.tolerance_asked = device_.tolerance;
    table.order = order + 1;
    for (const DisplacementRows& at : solved_) {
      table.rows.insert(table.rows.end(), at.rows.begin(), at.rows.end());
      if (at.triangles == 0) continue;
      if (table.bodies.empty()) table.bodies = at.bodies;
      table.triangles_least =
          table.triangles_least == 0 ? at.triangles : std::min(table.triangles_least, at.triangles);
      table.triangles_most = std::max(table.triangles_most, at.triangles);
      table.unknowns_most = std::max(table.unknowns_most, at.unknowns);
    }
    for (const Measurement& row : table.rows)
      if (!std::isnan(row.force_N.value))
        table.peak_force_N = std::max(table.peak_force_N, std::abs(row.force_N.value));
    add_bars(solved_, table);
    return table;
  }

  double allowed(const ForceTable& table) const {
    return std::max(device_.tolerance * table.peak_force_N, least_force_N);
  }

  /// Displacements with a bar too wide, their resolution raised by what the bar asks for.
  std::vector<std::size_t> to_be_refined(const ForceTable& table) {
    std::vector<std::size_t> due;
    for (std::size_t i = 0; i < solved_.size(); ++i) {
      double widest = 0;
      for (std::size_t k = 0; k < table.currents_per_displacement; ++k)
        widest = std::max(widest, table.rows[i * table.currents_per_displacement + k].force_N.error);
      if (!(widest > allowed(table))) continue;
      resolution_[i] = finer(resolution_[i], widest / allowed(table));
      due.push_back(i);
    }
    return due;
  }

  void mark_wide_bars(ForceTable& table) const {
    for (Measurement& row : table.rows)
      if (row.status == RowStatus::ok && row.force_N.error > allowed(table)) {
        row.status = RowStatus::tolerance_not_met;
        row.why = "the error bar is wider than the tolerance allows";
      }
  }

  const Device& device_;
  const SweepOptions& options_;
  std::vector<DisplacementRows> solved_;
  std::vector<Resolution> resolution_;
  std::mutex mutex_;
  std::size_t rows_done_ = 0, rows_planned_ = 0;
};

}  // namespace

ForceTable sweep(const Device& device, const SweepOptions& options) {
  check_stroke(device);
  return Sweep(device, options).run();
}

}  // namespace coilpull
