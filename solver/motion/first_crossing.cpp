// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/first_crossing.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>

namespace coilpull::detail {
namespace {

constexpr int parts = 8;
constexpr double close_to_end = 1e-3;  // of a part

/// Times at which a step is looked at; those close to its ends tell which way a quantity leaves or arrives.
std::vector<double> times_within(double from, double to) {
  const double part = (to - from) / parts;
  std::vector<double> times = {from, from + close_to_end * part};
  for (int k = 1; k < parts; ++k) times.push_back(from + k * part);
  times.insert(times.end(), {to - close_to_end * part, to});
  return times;
}

struct Sample {
  double time_s;
  std::vector<double> values;  ///< of each ending
};

using Value = std::function<double(double)>;

double crossing_between(const Value& value, double from, double to, double before, double after,
                        double tolerance) {
  if (after == 0) return to;
  const auto close = [&](double a, double b) { return std::abs(a - b) <= tolerance; };
  std::uintmax_t steps = 100;
  return boost::math::tools::toms748_solve(value, from, to, before, after, close, steps).second;
}

/// Whether a smooth quantity of one sign may reach 0 near the second of three times: it is nearest there, and
/// not farther from 0 than it changes, or than 8 times what its parabola dips below (which is no more for
/// even steps, but more where two of the times lie close together).
bool may_dip(const Sample& first, const Sample& second, const Sample& third, std::size_t e) {
  const double a = first.values[e], b = second.values[e], c = third.values[e], away = std::abs(b);
  if (!(a * b > 0 && away < std::abs(a) && away < std::abs(c))) return false;
  const double before = (b - a) / (second.time_s - first.time_s),
               after = (c - b) / (third.time_s - second.time_s);
  const double half_curvature = (after - before) / (third.time_s - first.time_s);
  const double slope = before + half_curvature * (second.time_s - first.time_s);
  return away <= std::max({std::abs(a - b), std::abs(c - b), 2 * slope * slope / std::abs(half_curvature)});
}

/// Of a quantity with one sign at three times, nearest to 0 at the second: where it crosses 0 first, if it
/// does.
std::optional<double> crossing_at_dip(const Value& value, const Sample& first, const Sample& last,
                                      double before, double tolerance) {
  const double sign = before > 0 ? 1 : -1;
  std::uintmax_t steps = 100;
  const auto [time, least] =
      boost::math::tools::brent_find_minima([&](double t) { return sign * value(t); }, first.time_s,
                                            last.time_s, std::numeric_limits<double>::digits / 2, steps);
  if (least > 0) return std::nullopt;
  return crossing_between(value, first.time_s, time, before, sign * least, tolerance);
}

}  // namespace

std::optional<Crossing> first_crossing(const std::vector<Ending>& endings, double from, double to,
                                       double tolerance, const std::function<StrokePoint(double)>& point_at) {
  const auto sample_at = [&](double time) {
    const StrokePoint point = point_at(time);
    Sample sample{time, {}};
    for (const Ending& ending : endings) sample.values.push_back(ending.root(point));
    return sample;
  };
  std::optional<Crossing> found;
  const auto take = [&](double time, std::size_t e) {
    if (!found || time < found->time_s) found = Crossing{time, e};
  };
  std::vector<Sample> samples;
  for (const double time : times_within(from, to)) {
    samples.push_back(sample_at(time));
    const std::size_t k = samples.size() - 1;
    if (k == 0) continue;
    for (std::size_t e = 0; e < endings.size(); ++e) {
      const Value value = [&](double t) { return endings[e].root(point_at(t)); };
      const double before = samples[k - 1].values[e], after = samples[k].values[e];
      if (before == 0 && after < 0 && endings[e].end != StrokeEnd::asked) take(from, e);
      if (before == 0) continue;  // starts there
      if (before * after <= 0) {
        take(crossing_between(value, samples[k - 1].time_s, time, before, after, tolerance), e);
        continue;
      }
      if (k >= 2 && may_dip(samples[k - 2], samples[k - 1], samples[k], e))
        if (const auto dip = crossing_at_dip(value, samples[k - 2], samples[k], before, tolerance))
          take(*dip, e);
    }
    if (found) return found;
  }
  return std::nullopt;
}

}  // namespace coilpull::detail
