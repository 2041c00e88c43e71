// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heat/winding_heat.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace coilpull {
namespace {

/// The root of a function that rises through zero between two ends.
template <class Function>
double rising_root(const Function& function, double low, double high) {
  for (int halvings = 0; halvings < 200 && high - low > 1e-12 * (std::abs(low) + std::abs(high));
       ++halvings) {
    const double middle = 0.5 * (low + high);
    (function(middle) < 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// dT/dR
double kelvin_per_ohm(const HeatedWinding& winding) { return 1 / (winding.ohm_20 * winding.alpha_per_K); }

double time_at_current(const HeatedWinding& winding, double current, double r0, double r1) {
  return winding.capacity * kelvin_per_ohm(winding) / (current * current) * std::log(r1 / r0);
}

double time_at_voltage(const HeatedWinding& winding, double volts, double s, double r0, double r1) {
  const double shares = 0.5 * (r1 * r1 - r0 * r0) + 2 * s * (r1 - r0) + s * s * std::log(r1 / r0);
  return winding.capacity * kelvin_per_ohm(winding) / (volts * volts) * shares;
}

}  // namespace

HeatedWinding heated_winding(Metal metal, double bare_diameter, double length, double surface) {
  return {length * resistance_per_metre(metal, bare_diameter, 20), resistance_rise_per_kelvin(metal),
          length * mass_per_metre(metal, bare_diameter) * heat_capacity(metal), surface};
}

double StiffSource::current_A(double winding_ohm) const {
  const double most = std::numeric_limits<double>::infinity();
  return std::min(volts ? *volts / (winding_ohm + ohm) : most, limit_A.value_or(most));
}

double heating_time_s(const HeatedWinding& winding, const StiffSource& source, double from_degC,
                      double to_degC) {
  const double r0 = winding.ohm_at(from_degC), r1 = winding.ohm_at(to_degC);
  if (!(r1 > r0)) return 0;
  if (!source.volts) return time_at_current(winding, *source.limit_A, r0, r1);
  // Up to this resistance the limit holds, beyond it the voltage.
  const double turn = source.limit_A ? std::clamp(*source.volts / *source.limit_A - source.ohm, r0, r1) : r0;
  return (turn > r0 ? time_at_current(winding, *source.limit_A, r0, turn) : 0) +
         (r1 > turn ? time_at_voltage(winding, *source.volts, source.ohm, turn, r1) : 0);
}

double heated_degC(const HeatedWinding& winding, const StiffSource& source, double from_degC,
                   double seconds) {
  double high = from_degC + 1;
  constexpr double beyond_everything_degC = 1e5;
  while (heating_time_s(winding, source, from_degC, high) < seconds && high < beyond_everything_degC)
    high = from_degC + 2 * (high - from_degC);
  return rising_root([&](double degC) { return heating_time_s(winding, source, from_degC, degC) - seconds; },
                     from_degC, high);
}

Discharge discharge(const HeatedWinding& winding, const RunningDown& source, double from_degC,
                    double seconds) {
  struct State {
    double volts, degC, square;
  };
  const auto rate = [&](const State& at) {
    const double ohm = winding.ohm_at(at.degC), current = at.volts / (ohm + source.ohm);
    return State{-current / source.farad, current * current * ohm / winding.capacity, current * current};
  };
  const auto plus = [](const State& at, const State& slope, double step) {
    return State{at.volts + step * slope.volts, at.degC + step * slope.degC, at.square + step * slope.square};
  };
  // The resistance only rises, so the quickest decay is the first: steps of a fiftieth of it at most.
  const double decay = source.farad * (winding.ohm_at(from_degC) + source.ohm);
  constexpr double decays_left_out = 40;  // exp(-40): nothing
  const double last = std::min(seconds, decays_left_out * decay * winding.ohm_at(1000) / winding.ohm_at(0));
  const int steps = std::max(50, static_cast<int>(std::ceil(50 * last / decay)));
  const double h = last / steps;
  State at{source.volts, from_degC, 0};
  for (int i = 0; i < steps; ++i) {
    const State a = rate(at), b = rate(plus(at, a, h / 2)), c = rate(plus(at, b, h / 2)),
                d = rate(plus(at, c, h));
    at = plus(plus(plus(plus(at, a, h / 6), b, h / 3), c, h / 3), d, h / 6);
  }
  return {at.degC, at.volts, at.square, winding.capacity * (at.degC - from_degC)};
}

double emptied_degC(const HeatedWinding& winding, const RunningDown& source, double from_degC) {
  const double energy = 0.5 * source.farad * source.volts * source.volts;
  return rising_root(
      [&](double degC) {
        return winding.capacity *
                   ((degC - from_degC) + source.ohm * kelvin_per_ohm(winding) *
                                             std::log(winding.ohm_at(degC) / winding.ohm_at(from_degC))) -
               energy;
      },
      from_degC, from_degC + energy / winding.capacity);
}

std::optional<double> heating_time_s(const HeatedWinding& winding, const RunningDown& source,
                                     double from_degC, double to_degC) {
  if (to_degC <= from_degC) return 0;
  if (emptied_degC(winding, source, from_degC) <= to_degC) return std::nullopt;
  const double decay = source.farad * (winding.ohm_at(to_degC) + source.ohm);
  double high = decay;
  while (discharge(winding, source, from_degC, high).degC < to_degC) {
    high *= 2;
    if (high > 40 * decay) return std::nullopt;  // reaches it only in its last breath
  }
  return rising_root(
      [&](double seconds) { return discharge(winding, source, from_degC, seconds).degC - to_degC; }, 0, high);
}

std::optional<double> steady_degC(const HeatedWinding& winding, const std::function<double(double)>& heat_J,
                                  double strokes_per_s, double cooling_W_per_m2_K, double ambient_degC,
                                  double most_degC) {
  const auto surplus_W = [&](double degC) {
    return cooling_W_per_m2_K * winding.surface * (degC - ambient_degC) - heat_J(degC) * strokes_per_s;
  };
  if (surplus_W(ambient_degC) >= 0) return ambient_degC;
  constexpr int looks = 200;
  const double step = (most_degC - ambient_degC) / looks;
  for (int i = 1; i <= looks; ++i)  // the lowest balance: there may be a second, where heat outruns cooling
    if (surplus_W(ambient_degC + i * step) >= 0)
      return rising_root(surplus_W, ambient_degC + (i - 1) * step, ambient_degC + i * step);
  return std::nullopt;
}

}  // namespace coilpull
