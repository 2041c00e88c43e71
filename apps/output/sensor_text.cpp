// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sensor_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/csv_rows.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::string mT(double tesla) { return rounded(1e3 * tesla, 3) + " mT"; }

std::string range(const Scattered& at) {
  return rounded(in_mm(at.least), 4) + " to " + millimetres(at.most, 4);
}

/// "35.21 +- 0.02 mm (34.4 to 36 mm over its sheet, 34.2 to 36.2 mm with its place)"
std::string scattered(const Scattered& at, const std::optional<Scattered>& anywhere) {
  return with_bar({1e3 * at.typical, 1e3 * at.bar}) + " mm (" + range(at) + " over its sheet" +
         (anywhere && anywhere->width() > at.width() ? ", " + range(*anywhere) + " with its place" : "") +
         ")";
}

std::string passage_line(const SensorPassage& seen, const SensorPassage& anywhere, const std::string& way) {
  std::string text = "  Current off, mover towards " + way + ": ";
  text += seen.operates           ? "on at " + scattered(*seen.operates, anywhere.operates)
          : seen.on_at_start      ? "on from the start"
          : seen.keen_on_at_start ? "the keenest of this sheet are on from the start, not every one"
                                  : "NOT every sensor of this sheet goes on";
  return text + (seen.releases ? ",\n    off at " + scattered(*seen.releases, anywhere.releases) + ".\n"
                               : "; NOT every one goes off again within the stroke.\n");
}

std::string scatter_lines(const SensorAdvice& advice) {
  if (!advice.passage.releases) return "";
  std::string text = "  Switch-off towards +z scatters by " +
                     millimetres(advice.passage.releases->width(), 4) + " over its sheet";
  if (!advice.anywhere.releases)
    return text + "; within " + millimetres(advice.sheet.place_tolerance, 4) +
           " of its place NOT every one goes off.\n";
  if (advice.sheet.place_tolerance > 0)
    text += ", by " + millimetres(advice.anywhere.releases->width(), 4) + " with " +
            millimetres(advice.sheet.place_tolerance, 4) + " of place either way";
  if (advice.lost_J)
    text += ":\n    worth " + with_bar({1e3 * advice.lost_J->value, 1e3 * advice.lost_J->error}) +
            " mJ of what the current does there";
  return text + ".\n";
}

std::string window_line(const SensorAdvice& advice) {
  const auto z = [&](double shift) { return rounded(in_mm(advice.sensor.at.z + shift), 4); };
  const std::string tried =
      advice.tried.empty() ? "" : z(advice.tried.front()) + " to " + z(advice.tried.back());
  if (advice.works.empty())
    return "  Towards +z no place along z, " + tried +
           " mm, works at this r over sheet, tolerance and coil:\n    try another direction, r, "
           "levels, or the coil's other sense alone.\n";
  const double step = advice.tried[1] - advice.tried[0];
  std::string words;
  for (std::size_t i = 0; i < advice.works.size(); ++i) {
    std::size_t last = i;
    while (last + 1 < advice.works.size() && advice.works[last + 1] - advice.works[last] < 1.5 * step) ++last;
    words += (words.empty() ? "" : ", ") + z(advice.works[i]) + " to " + z(advice.works[last]) + " mm";
    i = last;
  }
  return "  Places along z at this r that work towards +z over sheet, tolerance and coil:\n    " + words +
         ", of " + tried + " mm in steps of " + millimetres(step, 4) + ".\n";
}

}  // namespace

std::string sensor_text(const SensorAdvice& advice) {
  std::string text = passage_line(advice.passage, advice.anywhere, "+z") +
                     passage_line(advice.back, advice.anywhere_back, "-z") + scatter_lines(advice);
  text += "  The coil alone changes its field by up to " + mT(advice.coil.most_T) + ": ";
  text += advice.coil.trips ? "it TRIPS the sensor" : "it does not trip it";
  text += advice.coil.masks ? " and MASKS the magnet.\n" : " and does not mask the magnet.\n";
  if (advice.sheet.delay > 0)
    text += "  Its delay of " + rounded(1e6 * advice.sheet.delay, 4) +
            " us is not in these places: both come later by the way travelled meanwhile.\n";
  return text + window_line(advice) +
         "  The table has no bar for B. Here two orders and another mesh agree to " +
         (std::isfinite(advice.bar_T) ? rounded(1e3 * advice.bar_T, 2) + " mT"
                                      : std::string("(not solved)")) +
         ", where it switches and with\n  full current; bars of places hold that and the steps of the table. "
         "On axis, no "
         "eddy currents,\n  no remanence (coilpull remanence tells its size).\n";
}

std::string sensor_csv(const SensorAdvice& advice) {
  std::string header = "displacement_mm,B_along_off_T";
  for (const double current_A : advice.currents_A) header += ",B_along_at_" + shortest(current_A) + "_A_T";
  std::vector<std::vector<double>> rows;
  for (std::size_t i = 0; i < advice.off.displacements.size(); ++i) {
    rows.push_back({in_mm(advice.off.displacements[i]), advice.off.along_T[i]});
    for (const SensorCurve& on : advice.on) rows.back().push_back(on.along_T[i]);
  }
  return csv_rows(header, rows);
}

CurvesPicture sensor_picture(const SensorAdvice& advice, const std::string& title) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = "field at sensor " + advice.sensor.name + " along its direction, current off and on";
  picture.x_words = "displacement (mm)";
  picture.y_words = "B along its direction (mT)";
  picture.foot =
      "bands: operate and release over the sheet; full dot: goes on, open dot: goes off, bars over the sheet";
  const double from = in_mm(advice.off.displacements.front()), to = in_mm(advice.off.displacements.back());
  for (const auto& [label, level] :
       {std::pair{"operate", advice.sheet.operate}, std::pair{"release", advice.sheet.release}}) {
    const double middle = 500 * (level.least + level.most), half = 500 * (level.most - level.least);
    Curve band{label, on_signed_scale(0), {{from, middle, half}, {to, middle, half}}};
    band.dashed = half == 0;
    picture.curves.push_back(band);
  }
  double strongest = 0;
  for (const double current_A : advice.currents_A) strongest = std::max(strongest, std::abs(current_A));
  const auto add = [&](const SensorCurve& curve, double current_A) {
    Curve drawn{current_A == 0 ? "current off" : rounded(current_A, 4) + " A",
                on_signed_scale(strongest == 0 ? 0 : current_A / strongest),
                {}};
    for (std::size_t i = 0; i < curve.along_T.size(); ++i)
      drawn.points.push_back({in_mm(curve.displacements[i]), 1e3 * curve.along_T[i]});
    picture.curves.push_back(drawn);
  };
  for (std::size_t k = 0; k < advice.on.size(); ++k) add(advice.on[k], advice.currents_A[k]);
  add(advice.off, 0);
  const auto mark = [&](const std::optional<Scattered>& at, double level_T, bool filled) {
    if (at)
      picture.curves.back().marks.push_back(
          {in_mm(at->typical), 1e3 * level_T, filled, in_mm(at->width() / 2)});
  };
  mark(advice.passage.operates, advice.sheet.operate.typical, true);
  mark(advice.passage.releases, advice.sheet.release.typical, false);
  return picture;
}

}  // namespace coilpull
