// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/rating_text.hpp"

#include <cmath>

#include "apps/output/csv_rows.hpp"
#include "apps/output/heat_text.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

constexpr double margin = 1.5;  // common practice, no source

std::string off_line(const std::string& what, const SwitchOff& off, bool assumed) {
  return "  " + what + " of " + rounded(off.volts, 3) + " V" + (assumed ? " (assumed)" : "") +
         ": current gone in " + with_bar({1e3 * off.seconds.value, 1e3 * off.seconds.error}) +
         " ms, it takes " + with_bar({1e3 * off.taken_J.value, 1e3 * off.taken_J.error}) +
         " mJ each time;\n    its peak current is the winding's.\n";
}

std::vector<CurvePoint> points_of(const std::vector<DyingCurrent>& moments) {
  std::vector<CurvePoint> points;
  points.reserve(moments.size());
  for (const DyingCurrent& moment : moments) points.push_back({1e3 * moment.seconds, moment.current_A});
  return points;
}

}  // namespace

std::string rating_text(const RatingAdvice& advice) {
  std::string text = "  Ratings; times 1.5 where said is common practice, no source.\n";
  text += "  Switch: " + rounded(advice.current_A, 3) + " A and " + rounded(advice.switch_V, 3) +
          " V (supply " + rounded(advice.supply_V, 3) + " V and clamp);\n    choose " +
          rounded(margin * advice.current_A, 3) + " A, " + rounded(margin * advice.switch_V, 3) +
          " V or more.";
  text += advice.switch_ohm > 0 ? " Its " + rounded(1e3 * advice.switch_ohm, 3) + " mohm turn " +
                                      rounded(1e3 * advice.switch_J, 3) + " mJ a pulse into heat.\n"
                                : " [supply] switch_resistance_ohm would tell its heat.\n";
  text += "  The current's magnetic energy is largest at " + rounded(in_mm(advice.stored_at), 4) +
          " mm: " + with_bar({1e3 * advice.stored_J.value, 1e3 * advice.stored_J.error}) +
          " mJ. From there:\n";
  text += off_line("Diode", advice.diode, advice.diode_assumed) +
          off_line("Clamp", advice.clamp, advice.clamp_assumed);
  text += "  Fuse: a pulse has " + rounded(advice.square_A2s, 3) +
          " A2s, which it has to let pass;\n    a jam has " + rounded(advice.jammed_A2s, 4) +
          " A2s when the insulation reaches its class, by when it has to melt.\n";
  if (advice.lead_V > 0)
    text += "  Leads: " + rounded(advice.lead_V, 3) + " V and " + rounded(advice.lead_W, 3) +
            " W at the full current.\n";
  if (advice.capacitor_left_V)
    text += "  Capacitor: charged to " + rounded(advice.supply_V, 3) + " V (choose " +
            rounded(margin * advice.supply_V, 3) + " V), " + rounded(*advice.capacitor_J, 3) +
            " J;\n    a pulse leaves " + rounded(*advice.capacitor_left_V, 3) + " V, a droop of " +
            rounded(100 * (1 - *advice.capacitor_left_V / advice.supply_V), 3) +
            " %.\n  CAUTION: it stays charged when the rest is off; give it a bleeder and measure before you "
            "touch.\n";
  return text +
         "  CAUTION: without a diode or clamp an opened winding makes its own voltage, enough to kill the "
         "switch\n  and to hurt.\n";
}

std::string rating_csv(const RatingAdvice& advice) {
  std::vector<std::vector<double>> rows;
  for (std::size_t i = 0; i < advice.with_diode.size(); ++i)
    rows.push_back(
        {advice.with_diode[i].current_A, advice.with_diode[i].seconds, advice.with_clamp[i].seconds});
  return csv_rows("current_A,after_with_diode_s,after_with_clamp_s", rows);
}

CurvesPicture rating_picture(const RatingAdvice& advice, const std::string& title) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = "current after switching off, the mover at " + rounded(in_mm(advice.stored_at), 4) +
                  " mm, where the field holds most energy";
  picture.x_words = "time (ms)";
  picture.y_words = "current (A)";
  picture.foot = "the resistance of the cold winding helps; losses in the steel, left out, would shorten it";
  picture.curves.push_back(
      {"diode " + rounded(advice.diode.volts, 2) + " V", on_signed_scale(1), points_of(advice.with_diode)});
  picture.curves.push_back(
      {"clamp " + rounded(advice.clamp.volts, 3) + " V", on_signed_scale(-1), points_of(advice.with_clamp)});
  return picture;
}

}  // namespace coilpull
