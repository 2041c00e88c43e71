// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "solver/motion/switched_stroke.hpp"

namespace coilpull::detail {

/// A root lies so much beyond what starts the next piece that it does not lie at that piece's start again.
inline constexpr double beyond = 1e-9;
enum class Conducts { feed, limiter, taker, nothing };

/// What one stage's circuit does at the moment.
struct StageCircuit {
  Switching switched;
  Conducts conducts;
  double current_A = 0;
  double polarity = 1, taker_way = 1;
  std::size_t next = 0;  ///< order
  double last_acted_s = 0;
  std::optional<double> pending = {};
};

/// Walks through a stroke, a piece at a time: see simulate_switched_stroke.
class Pieces {
public:
  Pieces(const CoenergyFunction& function, const SwitchedSetup& setup, const StrokeState& start,
         const StrokeOptions& options);

  SwitchedRun run();

private:
  using Act = std::function<void()>;

  /// What a stage does to the mover, at its present current.
  CoenergyPoint field_of(std::size_t stage) const;

  /// Force on the mover but for dry friction.
  double net_force() const;

  /// From the speed, or from the force at rest: which way it goes on, 0 when it sticks.
  void settle_motion();

  /// What the motion's voltage decides at once: it jumps at a stop.
  void settle_circuit(std::size_t stage);

  bool blocked(double push) const;
  double rounding() const;  ///< of a displacement [m]

  void tell(StrokeEvent event, std::size_t stage = 0) {
    run_.events.push_back({event, state_.time_s, stage});
  }

  void take_over(StageCircuit& circuit);

  void switch_to(std::size_t stage, Switching to);

  /// The voltage that the feed has to give.
  double feed_V() const { return setup_.feed.capacitor_F ? state_.bank_V : setup_.feed.volt; }

  /// What a current that dies away, or one that the motion drives, has to overcome.
  double against_V(double feed_V) const;

  const SwitchOrder* waiting(std::size_t stage) const;

  /// The next moment that is known beforehand, and what is done there.
  std::optional<double> due(std::size_t stage) const;

  bool obey_due_orders();

  Drive drive_of(std::size_t stage) const;

  StrokeSetup piece_setup() const;

  void add(StrokeOptions& options, std::function<double(const StrokePoint&)> root, Act act);

  void watch_motion(StrokeOptions& options);

  void watch_circuit(StrokeOptions& options, std::size_t stage);

  void watch_bank(StrokeOptions& options);

  void watch_orders(StrokeOptions& options, std::size_t stage);

  void one_piece();

  void account(const StrokeRun& piece, const StrokeState& before);

  void act_on(const StrokeRun& piece);

  void leave(SwitchedEnd end);

  void meet(double stop, StrokeEvent event, SwitchedEnd end);

  SwitchedRun finished() { return std::move(run_); }

  const CoenergyFunction& function_;
  const SwitchedSetup& setup_;
  const StrokeOptions& options_;
  StrokeState state_;
  std::vector<StageCircuit> circuits_;
  double low_ = 0, high_ = 0;
  double way_ = 0;
  bool cut_ = false, over_ = false;
  std::vector<Act> acts_;
  SwitchedRun run_;
};

}  // namespace coilpull::detail
