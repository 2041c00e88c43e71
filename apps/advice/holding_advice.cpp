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

/// The current nearest to 0 that still starts, between one that does and its neighbour towards 0 that does
/// not.
template <class Starts>
double weakest_A(double starts_A, double step_A, const Starts& starts) {
  double yes = starts_A,
         no = starts_A > 0 ? std::max(0.0, starts_A - step_A) : std::min(0.0, starts_A + step_A);
  constexpr int halvings = 10;
  for (int k = 0; k < halvings; ++k) {
    const double middle = 0.5 * (yes + no);
    (starts(middle) ? yes : no) = middle;
  }
  return yes;
}

StartAt start_at(const DriveTable& drive, const Mechanics& mechanics, double z) {
  const double push = push_from_outside(mechanics, z), friction = mechanics.dry_friction;
  StartAt start{z, drive.force_N(z, 0), {}, {}, -HUGE_VAL, -HUGE_VAL};
  start.off_N.value += push;
  const auto weaker = [](const std::optional<double>& held, double tried) {
    return !held || std::abs(tried) < std::abs(*held);
  };
  const auto left_over = [&](double current_A, int sense) {
    const Measured force = drive.force_N(z, current_A);
    return sense * (force.value + push) - force.error - friction;
  };
  const auto try_current = [&](double current_A) {
    const double plus = left_over(current_A, 1), minus = left_over(current_A, -1);
    start.plus_margin_N = std::max(start.plus_margin_N, plus);
    start.minus_margin_N = std::max(start.minus_margin_N, minus);
    if (plus > 0 && weaker(start.to_plus_A, current_A)) start.to_plus_A = current_A;
    if (minus > 0 && weaker(start.to_minus_A, current_A)) start.to_minus_A = current_A;
  };
  for (int i = 0; i < currents; ++i) try_current(current_at(drive, i));
  if (drive.least_A() <= 0 && drive.most_A() >= 0) try_current(0);
  const double step_A = current_at(drive, 1) - current_at(drive, 0);
  for (const auto& [least_A, sense] : {std::pair{&start.to_plus_A, 1}, std::pair{&start.to_minus_A, -1}})
    if (*least_A && **least_A != 0 && **least_A != drive.least_A() && **least_A != drive.most_A())
      **least_A = weakest_A(**least_A, step_A,
                            [&, sense = sense](double current_A) { return left_over(current_A, sense) > 0; });
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
