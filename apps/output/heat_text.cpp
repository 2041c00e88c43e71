// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/heat_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/csv_rows.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

constexpr double practice_A_per_mm2 = 10;

/// A thousand times it; a bar that is not finite is not known.
std::string in_milli(const Measured& value) {
  return std::isfinite(value.error) ? with_bar({1e3 * value.value, 1e3 * value.error})
                                    : rounded(1e3 * value.value, 3) + " (two currents: no bar)";
}

std::string degC(double value) { return rounded(value, 4) + " degC"; }

std::string source_words(const HeatAdvice& advice) {
  const StiffSource& stiff = advice.source.stiff;
  std::string words;
  if (stiff.volts) words += rounded(*stiff.volts, 4) + " V";
  if (advice.source.actual) words += " in " + shortest(as_written(1e6 * advice.source.actual->farad)) + " uF";
  if (stiff.limit_A) words += (words.empty() ? "" : ", at most ") + rounded(*stiff.limit_A, 4) + " A";
  if (stiff.ohm > 0) words += " behind " + rounded(stiff.ohm, 3) + " ohm";
  return words + (advice.source.assumed
                      ? " (assumed: the table's strongest current, held; [supply] states another)"
                      : "");
}

std::string inductance_lines(const HeatAdvice& advice) {
  std::string text = "  Inductance at " + rounded(advice.table_current_A, 4) +
                     " A, apparent (linkage over current) and incremental at 0 A and there:\n";
  for (const Inductance& one : advice.inductances)
    text += "    at " + rounded(in_mm(one.displacement), 4) + " mm: " + in_milli(one.apparent_H) +
            " mH, incremental " + in_milli(one.incremental_0_H) + " and " + in_milli(one.incremental_full_H) +
            " mH: time constant " + in_milli(one.time_constant_s) + " ms\n";
  if (std::abs(advice.table_current_A) < 0.999 * advice.current_A)
    text += "    The supply drives more than the table holds: widen [current] to see what " +
            rounded(advice.current_A, 4) + " A do.\n";
  return text;
}

std::string limit_lines(const HeatAdvice& advice, const HeatLimit& limit) {
  std::string text =
      "  " + limit.name + " limit " + degC(limit.degC) +
      (limit.name == "insulation" && advice.class_assumed
           ? " (assumed: class B of IEC 60085, from memory; [duty] thermal_class states another)"
       : limit.name == "insulation" ? " (letters of IEC 60085 from memory)"
                                    : "") +
      ":\n    reached " + seconds_words(limit.stiff_s) + " after a jam if the supply holds as it is";
  if (advice.source.actual)
    text += limit.actual_s ? "; " + seconds_words(*limit.actual_s) + " from the capacitor"
                           : "; never from one charge of the capacitor";
  text += ".\n";
  return text + (limit.rest_s
                     ? "    Rest between pulses so that none ends above it: " + seconds_words(*limit.rest_s) +
                           " (surface estimate" +
                           (advice.source.actual ? ", charging the capacitor again not counted" : "") + ").\n"
                     : "    One pulse alone passes it.\n");
}

std::string steady_line(const HeatAdvice& advice) {
  if (!advice.strokes_per_s) return "  [duty] strokes_per_minute would tell where it settles.\n";
  const std::string rate = "  At " + rounded(60 * *advice.strokes_per_s, 4) + " strokes a minute it ";
  return rate +
         (advice.steady_degC ? "settles at " + degC(*advice.steady_degC)
                             : std::string("never settles: it runs away")) +
         "\n    (estimate: " + rounded(advice.cooling_W_per_m2_K, 3) + " W/(m2 K) over " +
         rounded(1e4 * advice.winding.surface, 3) + " cm2 of outer surface; common practice, no source).\n";
}

/// Temperature against time, doubling times from well below a pulse to the limit.
std::vector<double> times_of(const HeatAdvice& advice) {
  double last = advice.pulse_s;
  for (const HeatLimit& limit : advice.limits) last = std::max(last, limit.stiff_s);
  const double first = std::min(advice.pulse_s, last) / 10;
  std::vector<double> times;
  constexpr int points = 60;
  times.reserve(points);
  for (int i = 0; i < points; ++i) times.push_back(first * std::pow(1.5 * last / first, i / (points - 1.0)));
  return times;
}

double actual_degC(const HeatAdvice& advice, double seconds) {
  return advice.source.actual
             ? discharge(advice.winding, *advice.source.actual, advice.start_degC, seconds).degC
             : std::nan("");
}

}  // namespace

std::string seconds_words(double seconds) {
  if (!std::isfinite(seconds)) return "never";
  if (seconds < 1e-3) return rounded(1e6 * seconds, 3) + " us";
  if (seconds < 1) return rounded(1e3 * seconds, 3) + " ms";
  if (seconds < 120) return rounded(seconds, 3) + " s";
  return rounded(seconds / 60, 3) + " min";
}

std::string heat_text(const HeatAdvice& advice) {
  const double density = advice.current_A / (1e6 * advice.conductor_m2);
  const HeatLimit& insulation = advice.limits.front();
  std::string text = "  Source: " + source_words(advice) + ".\n  Resistance " +
                     rounded(advice.winding.ohm_at(advice.start_degC), 4) + " ohm at " +
                     degC(advice.start_degC) + ", " + rounded(advice.winding.ohm_at(insulation.degC), 4) +
                     " ohm at " + degC(insulation.degC) + ".\n  At first " + rounded(advice.current_A, 4) +
                     " A, " + rounded(advice.watt, 4) + " W, " + rounded(density, 3) + " A/mm2";
  text += density > practice_A_per_mm2
              ? " (more than 10 A/mm2, common practice, no source: for pulses, not for good).\n"
              : " (10 A/mm2 is common practice for windings that rest, no source).\n";
  text += inductance_lines(advice);
  text += "  A pulse of " + seconds_words(advice.pulse_s) +
          (advice.pulse_assumed ? " (assumed; [duty] pulse_ms states another)" : "") + " brings " +
          rounded(advice.pulse_J, 3) + " J and " + rounded(advice.pulse_degC - advice.start_degC, 3) +
          " K: it ends at " + degC(advice.pulse_degC) + ".\n";
  for (const HeatLimit& limit : advice.limits) text += limit_lines(advice, limit);
  text += steady_line(advice);
  return text +
         "  No heat flows away during a pulse or a jam, and the current stands at once: hotter than true.\n"
         "  CAUTION: a jammed winding burns skin and enamel long before it smokes; fuse it or time it out.\n";
}

std::string heat_csv(const HeatAdvice& advice) {
  std::vector<std::vector<double>> rows;
  for (const double t : times_of(advice))
    rows.push_back(
        {t, heated_degC(advice.winding, advice.source.stiff, advice.start_degC, t), actual_degC(advice, t)});
  return csv_rows("time_s,stiff_supply_degC,capacitor_degC", rows);
}

CurvesPicture heat_picture(const HeatAdvice& advice, const std::string& title) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = "temperature of the winding while the mover is jammed, no heat flowing away";
  picture.x_words = "time (s)";
  picture.y_words = "temperature (degC)";
  picture.x_logarithmic = true;
  Curve stiff{"supply held", on_signed_scale(1), {}}, actual{"capacitor", on_signed_scale(-1), {}};
  const std::vector<double> times = times_of(advice);
  for (const double t : times) {
    stiff.points.push_back({t, heated_degC(advice.winding, advice.source.stiff, advice.start_degC, t)});
    if (advice.source.actual) actual.points.push_back({t, actual_degC(advice, t)});
  }
  stiff.marks.push_back({advice.pulse_s,
                         heated_degC(advice.winding, advice.source.stiff, advice.start_degC, advice.pulse_s),
                         true});
  picture.curves.push_back(stiff);
  if (advice.source.actual) picture.curves.push_back(actual);
  for (const HeatLimit& limit : advice.limits) {
    Curve line{limit.name, on_signed_scale(0), {{times.front(), limit.degC}, {times.back(), limit.degC}}};
    line.dashed = true;
    picture.curves.push_back(line);
  }
  picture.foot = "dot: end of a pulse of " + seconds_words(advice.pulse_s) + "; dashed: limits, " +
                 advice.limits.front().name + " " + degC(advice.limits.front().degC);
  if (advice.limits.size() > 1)
    picture.foot += ", " + advice.limits[1].name + " " + degC(advice.limits[1].degC);
  return picture;
}

}  // namespace coilpull
