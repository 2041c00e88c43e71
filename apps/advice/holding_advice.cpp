// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/advice/holding_advice.hpp"

#include <algorithm>
#include <cmath>

namespace coilpull {
namespace {

constexpr std::size_t places = 101;
constexpr int currents = 241;

double current_at(const DriveTable& drive, int number) {
  return drive.least_A() + (drive.most_A() - drive.least_A()) * number / (currents - 1);
}

StartAt start_at(const DriveTable& drive, const Mechanics& mechanics, double z) {
  const double push = push_from_outside(mechanics, z), friction = mechanics.dry_friction;
  StartAt start{z, drive.force_N(z, 0), {}, {}, -HUGE_VAL, -HUGE_VAL};
  start.off_N.value += push;
  const auto weaker = [](const std::optional<double>& held, double tried) {
    return !held || std::abs(tried) < std::abs(*held);
  };
  const auto try_current = [&](double current_A) {
    const Measured force = drive.force_N(z, current_A);
    const double plus = force.value + push - force.error - friction,
                 minus = -force.value - push - force.error - friction;
    start.plus_margin_N = std::max(start.plus_margin_N, plus);
    start.minus_margin_N = std::max(start.minus_margin_N, minus);
    if (plus > 0 && weaker(start.to_plus_A, current_A)) start.to_plus_A = current_A;
    if (minus > 0 && weaker(start.to_minus_A, current_A)) start.to_minus_A = current_A;
  };
  for (int i = 0; i < currents; ++i) try_current(current_at(drive, i));
  if (drive.least_A() <= 0 && drive.most_A() >= 0) try_current(0);
  return start;
}

/// Second difference at an inner point, 0 at the ends.
double bend(const std::vector<Measured>& forces_N, std::size_t i) {
  if (i == 0 || i + 1 >= forces_N.size()) return 0;
  return std::abs(forces_N[i - 1].value - 2 * forces_N[i].value + forces_N[i + 1].value);
}

}  // namespace

std::vector<StartAt> starts_along(const DriveTable& drive, const Mechanics& mechanics) {
  std::vector<StartAt> starts;
  for (const double z : along(drive, places)) starts.push_back(start_at(drive, mechanics, z));
  return starts;
}

std::vector<Measured> balance_currents(const std::vector<double>& currents_A,
                                       const std::vector<Measured>& forces_N, double push_N, double shift_N) {
  std::vector<Measured> found;
  for (std::size_t i = 1; i < currents_A.size(); ++i) {
    const double a = forces_N[i - 1].value + push_N, b = forces_N[i].value + push_N;
    if (!((a > 0) != (b > 0))) continue;
    const double slope = (b - a) / (currents_A[i] - currents_A[i - 1]);
    const double bent =
        std::max(bend(forces_N, i - 1), bend(forces_N, i)) / 8;  // off a straight line, at most
    found.push_back(
        {currents_A[i - 1] - a / slope,
         (std::max(forces_N[i - 1].error, forces_N[i].error) + bent + shift_N) / std::abs(slope)});
  }
  return found;
}

}  // namespace coilpull
