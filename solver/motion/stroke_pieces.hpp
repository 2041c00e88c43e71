// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "solver/motion/switched_stroke.hpp"

namespace coilpull::detail {

/// A root lies so much beyond what starts the next piece that it does not lie at that piece's start again.
inline constexpr double beyond = 1e-9;
enum class Conducts { feed, limiter, taker, nothing };

/// Walks through a stroke, a piece at a time: see simulate_switched_stroke.
class Pieces {
public:
  Pieces(const CoenergyFunction& function, const SwitchedSetup& setup, const StrokeState& start,
         const StrokeOptions& options);

  SwitchedRun run();

private:
  using Act = std::function<void()>;

  /// Force on the mover but for dry friction.
  double net_force() const;

  /// From the speed, or from the force at rest: which way it goes on, 0 when it sticks.
  void settle_motion();

  /// What the motion's voltage decides at once: it jumps at a stop.
  void settle_circuit();

  bool blocked(double push) const;

  void tell(StrokeEvent event) { run_.events.push_back({event, state_.time_s}); }

  void take_over();

  void switch_to(Switching to);

  /// The next moment that is known beforehand, and what is done there.
  std::optional<double> due() const;

  bool obey_due_orders();

  StrokeSetup piece_setup() const;

  void add(StrokeOptions& options, std::function<double(const StrokePoint&)> root, Act act);

  void watch_motion(StrokeOptions& options);

  void watch_circuit(StrokeOptions& options);

  void watch_orders(StrokeOptions& options);

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
  Switching switched_;
  Conducts conducts_ = Conducts::nothing;
  double current_ = 0, low_ = 0, high_ = 0;
  double way_ = 0, polarity_ = 1, taker_way_ = 1;
  std::size_t next_ = 0;
  std::optional<double> pending_;
  bool cut_ = false, over_ = false;
  std::vector<Act> acts_;
  SwitchedRun run_;
};

}  // namespace coilpull::detail
