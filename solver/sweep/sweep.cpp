// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sweep/sweep.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>
#include <numeric>
#include <stdexcept>
#include <string>
#include <utility>

#include "solver/refine/resolution_for.hpp"
#include "solver/refine/spread_sizes.hpp"
#include "solver/sweep/audit.hpp"
#include "solver/sweep/crew.hpp"
#include "solver/sweep/displacement_rows.hpp"
#include "solver/sweep/mesh_plan.hpp"
#include "solver/sweep/table_bars.hpp"

namespace coilpull {
namespace {

constexpr int order = 3;        // p; published is p + 1
constexpr int most_rounds = 4;  // of making the mesh finer where the tolerance is not met

constexpr int most_pilots = 3;  // rounds of learning sizes from a few displacements
constexpr double pilot_tolerance = 1e-2;
constexpr double aim = 0.6;  // widest bar aimed for, as a fraction of what is allowed
constexpr double much_too_narrow = 0.2;
constexpr std::size_t at_once = 64;  // displacements between whose meshes the memory is given back
constexpr double most_at_once = 20;  // sizes are trusted no further than for bars this many times smaller

class Sweep {
public:
  Sweep(const Device& device, const SweepOptions& options)
      : device_(device),
        options_(options),
        own_crew_(options.threads, options.mesher),
        crew_(options.crew != nullptr ? *options.crew : own_crew_),
        anchors_(anchors_of(device.displacements.size())),
        solved_(device.displacements.size()),
        due_(solved_.size(), true),
        no_finer_(solved_.size(), false) {
    mesh_everywhere(resolution_for(std::max(pilot_tolerance, device.tolerance)));
  }

  ForceTable run() {
    const bool given = !options_.meshes.empty();
    if (given)
      origin_ = options_.meshes;
    else
      learn_sizes();
    for (int round = 0; round < (given ? 1 : most_rounds); ++round) {
      solve(all_due());
      if (round == 0 && !stopped() && take_coarser_where_none()) solve(all_due());
      if (round + 1 == most_rounds || stopped() || !refine_where_wide(round)) break;
    }
    ForceTable result = table_of(all());
    mark_wide_bars(result);
    for (const DisplacementRows& at : solved_) result.meshes.push_back(at.origin);
    if (options_.audit) result.audit = audit(device_, result, crew_, options_.stop_requested);
    return result;
  }

private:
  bool stopped() const { return options_.stop_requested && options_.stop_requested(); }

  std::vector<std::size_t> all() const {
    std::vector<std::size_t> every(solved_.size());
    std::iota(every.begin(), every.end(), 0);
    return every;
  }
  std::vector<std::size_t> all_due() const {
    std::vector<std::size_t> due;
    for (const std::size_t i : all())
      if (due_[i]) due.push_back(i);
    return due;
  }

  void mesh_everywhere(Resolution resolution) {
    origin_ = origins_along(device_.displacements, anchors_,
                            std::make_shared<const Resolution>(std::move(resolution)));
    due_.assign(origin_.size(), true);
  }

  /// Solves the anchors until their bars promise the tolerance, and gives every displacement their sizes.
  void learn_sizes() {
    for (int round = 0; round < most_pilots; ++round) {
      solve(anchors_);
      if (keep_what_could_be_meshed()) return;
      const bool others_wait = anchors_.size() < solved_.size();
      const ForceTable promised = table_of(anchors_);
      const double too_wide = widest_over_allowed(promised);
      const bool wasteful = others_wait && too_wide < much_too_narrow;
      FeatureErrors errors;
      for (const std::size_t i : anchors_) widen(errors, solved_[i].features);
      if (others_wait) errors.spots.clear();
      if (stopped() || errors.edge_N.size() == 0 || !(too_wide > 1 || wasteful)) return;
      const Resolution& now = *origin_.front().resolution;
      const Section section = section_at(device_, device_.displacements[0], now);
      const double ratio = std::clamp(aim / too_wide, 1 / most_at_once, most_at_once);
      errors = weighed(errors, promised.safety_where_rough, promised.safety_where_smooth);
      mesh_everywhere(spread_over_features(device_, section.parts, now, errors, ratio));
      if (too_wide <= most_at_once && others_wait) return;
    }
  }

  /// Where an anchor cannot be meshed as finely as asked, all take the sizes it has. False: none is so.
  bool keep_what_could_be_meshed() {
    const auto stuck =
        std::find_if(anchors_.begin(), anchors_.end(), [this](std::size_t i) { return no_finer_[i]; });
    if (stuck == anchors_.end()) return false;
    mesh_everywhere(*solved_[*stuck].origin.resolution);
    for (const std::size_t i : anchors_) due_[i] = false;
    return true;
  }

  void solve(const std::vector<std::size_t>& due) {
    rows_planned_ = rows_done_ + due.size() * device_.currents_A.size();
    for (const std::size_t i : all())
      if (due_[i] && std::find(due.begin(), due.end(), i) == due.end())
        rows_planned_ += device_.currents_A.size();
    for (std::size_t from = 0; from < due.size(); from += at_once)
      solve_batch({due.begin() + from, due.begin() + std::min(from + at_once, due.size())});
    for (const std::size_t i : due) due_[i] = false;
  }

  /// First one displacement of each origin, its own where there is one; from these the others are carried.
  void solve_batch(const std::vector<std::size_t>& due) {
    std::vector<std::size_t> first, others;
    for (const std::size_t i : due) {
      const auto alike =
          std::find_if(first.begin(), first.end(), [&](std::size_t k) { return origin_[k] == origin_[i]; });
      if (alike == first.end()) {
        first.push_back(i);
      } else {
        others.push_back(device_.displacements[i] == origin_[i].made_at ? std::exchange(*alike, i) : i);
      }
    }
    std::vector<std::shared_ptr<const MeshBase>> base(first.size());
    crew_.run(first.size(), [&](std::size_t k, Mesher& mesher) {
      const bool alone = std::none_of(others.begin(), others.end(),
                                      [&](std::size_t other) { return origin_[other] == origin_[first[k]]; });
      base[k] = solve_one(first[k], nullptr, alone ? AskBase::no : AskBase::yes, mesher);
    });
    crew_.run(others.size(), [&](std::size_t k, Mesher& mesher) {
      const auto alike = std::find_if(first.begin(), first.end(), [&](std::size_t other) {
        return origin_[other] == origin_[others[k]];
      });
      solve_one(others[k], base[alike - first.begin()], AskBase::no, mesher);
    });
  }

  std::shared_ptr<const MeshBase> solve_one(std::size_t index, std::shared_ptr<const MeshBase> base,
                                            AskBase keep_base, Mesher& mesher) {
    RowsPlan plan;
    plan.order = order;
    plan.origin = origin_[index];
    plan.base = std::move(base);
    plan.keep_base = keep_base;
    plan.anchors = std::find(anchors_.begin(), anchors_.end(), index) != anchors_.end() ? AskAnchors::yes
                                                                                        : AskAnchors::no;
    plan.slopes = options_.slopes ? AskSlopes::yes : AskSlopes::no;
    plan.bodies = options_.bodies ? AskBodies::yes : AskBodies::no;
    plan.row_limit_s = options_.row_limit_s;
    plan.stop_requested = options_.stop_requested;
    plan.on_row = [this] {
      const std::lock_guard<std::mutex> lock(mutex_);
      ++rows_done_;
      if (options_.on_progress) options_.on_progress(rows_done_, rows_planned_);
    };
    DisplacementRows rows = solve_displacement(device_, device_.displacements[index], mesher, plan);
    const bool was_usable = has_mesh(index);
    const bool is_usable = std::any_of(rows.rows.begin(), rows.rows.end(),
                                       [](const Measurement& row) { return !std::isnan(row.force_N.value); });
    std::shared_ptr<const MeshBase> kept = std::move(rows.base);
    if (!was_usable || (is_usable && !stopped()))
      solved_[index] = std::move(rows);
    else if (!is_usable && !stopped())
      no_finer_[index] = true;  // what was there is kept
    return kept;
  }

  ForceTable table_of(const std::vector<std::size_t>& displacements) const {
    ForceTable table;
    table.circuits = device_.circuits;
    table.currents_per_displacement = device_.currents_A.size();
    for (const Core& core : device_.cores) table.cores.push_back(core.name);
    for (const Magnet& magnet : device_.magnets) table.magnets.push_back(magnet.name);
    for (const Sensor& sensor : device_.sensors) table.sensors.push_back(sensor.name);
    table.tolerance_asked = device_.tolerance;
    table.order = order + 1;
    std::vector<DisplacementRows> chosen;
    for (const std::size_t i : displacements) chosen.push_back(solved_[i]);
    for (const DisplacementRows& at : chosen) {
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
    add_bars(chosen, table);
    return table;
  }

  double allowed(const ForceTable& table) const {
    return std::max(device_.tolerance * table.peak_force_N, least_force_N);
  }

  double widest_over_allowed(const ForceTable& table) const {
    double widest = 0;
    for (const Measurement& row : table.rows) widest = std::max(widest, row.force_N.error);
    return widest / allowed(table);
  }

  bool has_mesh(std::size_t index) const { return solved_[index].unknowns > 0; }

  /// Displacements without a mesh take the sizes of an anchor that has one. False: none.
  bool take_coarser_where_none() {
    const auto meshed =
        std::find_if(anchors_.begin(), anchors_.end(), [this](std::size_t i) { return has_mesh(i); });
    if (meshed == anchors_.end()) return false;
    const std::shared_ptr<const Resolution>& coarser = solved_[*meshed].origin.resolution;
    bool some = false;
    for (const std::size_t i : all()) {
      if (has_mesh(i) || origin_[i].resolution == coarser) continue;
      origin_[i] = {coarser, device_.displacements[i]};
      due_[i] = no_finer_[i] = some = true;
    }
    return some;
  }

  /// Smaller triangles first where the displacement's own error lies, and where that did not do, everywhere.
  Resolution finer_at(std::size_t index, double too_wide, int round, const ForceTable& table) const {
    const Resolution& now = *origin_[index].resolution;
    if (round > 0) return finer(now, too_wide);
    const FeatureErrors errors =
        weighed(solved_[index].features, table.safety_where_rough, table.safety_where_smooth);
    return spread_over_features(device_, section_at(device_, device_.displacements[index], now).parts, now,
                                errors, std::max(aim / too_wide, 1 / most_at_once));
  }

  /// Raises the resolution of displacements with a bar too wide by what the bar asks for, and by three times
  /// more after each round that did not suffice: there errors fall more slowly than expected. False: none.
  bool refine_where_wide(int round) {
    const ForceTable table = table_of(all());
    const double more = std::pow(3, round);
    bool some = false;
    for (const std::size_t i : all()) {
      double widest = 0;
      for (std::size_t k = 0; k < table.currents_per_displacement; ++k)
        widest = std::max(widest, table.rows[i * table.currents_per_displacement + k].force_N.error);
      if (no_finer_[i] || !(widest > allowed(table))) continue;
      const double too_wide = more * widest / allowed(table);
      origin_[i] = {std::make_shared<const Resolution>(finer_at(i, too_wide, round, table)),
                    device_.displacements[i]};
      due_[i] = some = true;
    }
    return some;
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
  Crew own_crew_;
  Crew& crew_;
  std::vector<std::size_t> anchors_;
  std::vector<DisplacementRows> solved_;
  std::vector<MeshOrigin> origin_;
  std::vector<char> due_;       ///< not solved at this resolution yet
  std::vector<char> no_finer_;  ///< a finer mesh was tried and cannot be made or solved
  std::mutex mutex_;
  std::size_t rows_done_ = 0, rows_planned_ = 0;
};

}  // namespace

ForceTable sweep(const Device& device, const SweepOptions& options) {
  check_stroke(device);
  if (!options.meshes.empty() && options.meshes.size() != device.displacements.size())
    throw std::invalid_argument("a sweep was given " + std::to_string(options.meshes.size()) +
                                " meshes for " + std::to_string(device.displacements.size()) +
                                " displacements");
  return Sweep(device, options).run();
}

}  // namespace coilpull
