// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/switching_advice.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "apps/output/findings.hpp"

namespace coilpull {
namespace {

constexpr std::size_t looks = 1001;

/// What the current adds to the force, positive when it helps the motion. Bars of both add up.
Measured help(const DriveTable& drive, double z, double current_A, int sense) {
  const Measured on = drive.force_N(z, current_A), off = drive.force_N(z, 0);
  return {sense * (on.value - off.value), on.error + off.error};
}

/// The zero of help between two displacements that differ in its sign, with what the bars leave open.
Measured crossing(const DriveTable& drive, double low, double high, double current_A, int sense) {
  const double step = high - low, low_help = help(drive, low, current_A, sense).value,
               slope = (help(drive, high, current_A, sense).value - low_help) / step;
  double a = low, b = high;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (a + b);
    (help(drive, middle, current_A, sense).value * low_help > 0 ? a : b) = middle;
  }
  return {0.5 * (a + b), help(drive, low, current_A, sense).error / std::abs(slope)};
}

struct WindowEnd {
  Measured at;
  bool is_end;  ///< of the stroke
};

/// @param low, high  by displacement; which of them is `on` depends on the sense of motion
SwitchingWindow window_of(const DriveTable& drive, double current_A, const WindowEnd& low,
                          const WindowEnd& high, int sense) {
  const Measured with = drive.work_J(low.at.value, high.at.value, current_A),
                 without = drive.work_J(low.at.value, high.at.value, 0);
  const WindowEnd &on = sense > 0 ? low : high, &off = sense > 0 ? high : low;
  return {current_A,
          on.at,
          off.at,
          on.is_end,
          off.is_end,
          {sense * (with.value - without.value), with.error + without.error},
          drive.force_N(off.at.value, 0)};
}

std::pair<WindowEnd, WindowEnd> rising_ends(const SwitchingWindow& window, int sense) {
  const WindowEnd on{window.on, window.on_is_end}, off{window.off, window.off_is_end};
  return sense > 0 ? std::pair{on, off} : std::pair{off, on};
}

/// Every stretch of the stroke, in its rising order, in which the current helps.
std::vector<SwitchingWindow> windows(const DriveTable& drive, double current_A, int sense) {
  std::vector<SwitchingWindow> found;
  const std::vector<double> z = along(drive, looks);
  bool helps = false;
  WindowEnd start{};
  for (std::size_t i = 0; i < z.size(); ++i) {
    const bool now = help(drive, z[i], current_A, sense).value > 0;
    if (now != helps) {
      const WindowEnd end{i == 0 ? Measured{z[0], 0} : crossing(drive, z[i - 1], z[i], current_A, sense),
                          i == 0};
      if (now)
        start = end;
      else
        found.push_back(window_of(drive, current_A, start, end, sense));
    }
    helps = now;
  }
  if (helps) found.push_back(window_of(drive, current_A, start, {{z.back(), 0}, true}, sense));
  return found;
}

const SwitchingWindow* best(const std::vector<SwitchingWindow>& all) {
  const SwitchingWindow* most = nullptr;
  for (const SwitchingWindow& window : all)  // no work beyond its bar is no window
    if (window.gain_J.value > window.gain_J.error && (!most || window.gain_J.value > most->gain_J.value))
      most = &window;
  return most;
}

/// What is left of a window outside another: before it, after it, or nothing.
std::vector<SwitchingWindow> outside(const DriveTable& drive, const SwitchingWindow& window,
                                     const SwitchingWindow& other, int sense) {
  const auto [low, high] = rising_ends(window, sense);
  const auto [other_low, other_high] = rising_ends(other, sense);
  std::vector<SwitchingWindow> left;
  if (low.at.value < other_low.at.value)
    left.push_back(window_of(drive, window.current_A, low,
                             high.at.value < other_low.at.value ? high : other_low, sense));
  if (high.at.value > other_high.at.value)
    left.push_back(window_of(drive, window.current_A, low.at.value > other_high.at.value ? low : other_high,
                             high, sense));
  return left;
}

SwitchingSide side(const DriveTable& drive, double current_A, int sense) {
  SwitchingSide answer{sense, {}, {}};
  std::vector<SwitchingWindow> all;
  for (const double tried : {std::min(current_A, drive.most_A()), std::max(-current_A, drive.least_A())})
    if (tried != 0)
      for (const SwitchingWindow& window : windows(drive, tried, sense)) all.push_back(window);
  const SwitchingWindow* plain = best(all);
  if (!plain) return answer;
  answer.plain = *plain;
  std::vector<SwitchingWindow> others;
  for (const SwitchingWindow& window : all)
    if (window.current_A * plain->current_A < 0)
      for (const SwitchingWindow& left : outside(drive, window, *plain, sense)) others.push_back(left);
  if (const SwitchingWindow* second = best(others)) answer.reversed = *second;
  return answer;
}

/// Number of the table's set in which all currents are 0.
std::optional<std::size_t> set_without_current(const ForceTable& table) {
  for (std::size_t set = 0; set < std::min(table.currents_per_displacement, table.rows.size()); ++set)
    if (std::all_of(table.rows[set].currents_A.begin(), table.rows[set].currents_A.end(),
                    [](double current) { return current == 0; }))
      return set;
  return std::nullopt;
}

}  // namespace

SwitchingAdvice switching_advice(const ForceTable& table, const DriveTable& drive, double current_A) {
  SwitchingAdvice advice{current_A, {}, {}, 0, side(drive, current_A, 1), side(drive, current_A, -1)};
  if (const auto set = set_without_current(table)) advice.turns_off = sign_changes(table, *set);
  if (const Measurement* row = strongest_current_off(table)) {
    advice.strongest_off_N = row->force_N;
    advice.strongest_off_at = row->displacement;
  }
  return advice;
}

}  // namespace coilpull
