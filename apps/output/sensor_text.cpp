// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sensor_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/csv_rows.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::string mm(double metres) { return rounded(in_mm(metres), 4) + " mm"; }
std::string mT(double tesla) { return rounded(1e3 * tesla, 3) + " mT"; }

std::string scattered(const Scattered& at) {
  return mm(at.typical) + " (" + rounded(in_mm(at.least), 4) + " to " + mm(at.most) + " over its sheet)";
}

std::string passage_lines(const SensorAdvice& advice) {
  const SensorPassage& seen = advice.passage;
  std::string text = "  Current off, mover towards +z: ";
  text += seen.operates      ? "on at " + scattered(*seen.operates)
          : seen.on_at_start ? "on from the start"
                             : "NOT every sensor of this sheet goes on";
  text += seen.releases ? ", off at " + scattered(*seen.releases) + ".\n"
                        : "; NOT every one goes off again within the stroke.\n";
  if (seen.releases) {
    text += "  Switch-off scatters by " + mm(seen.releases->width());
    if (advice.lost_J)
      text += ", worth " + with_bar({1e3 * advice.lost_J->value, 1e3 * advice.lost_J->error}) +
              " mJ of what the current does there";
    text += "; " + mm(advice.sheet.place_tolerance) + " of place either way move it about as much.\n";
  }
  return text;
}

std::string window_line(const SensorAdvice& advice) {
  if (advice.works.empty())
    return "  No place along z within " + mm(advice.tried.empty() ? 0 : advice.tried.back()) +
           " of this one works at this r over sheet, tolerance and coil:\n  try another direction, r, "
           "levels, or the coil's other sense alone.\n";
  const double step = advice.tried[1] - advice.tried[0];
  std::string words;
  for (std::size_t i = 0; i < advice.works.size(); ++i) {
    std::size_t last = i;
    while (last + 1 < advice.works.size() && advice.works[last + 1] - advice.works[last] < 1.5 * step) ++last;
    words += (words.empty() ? "" : ", ") + rounded(in_mm(advice.sensor.at.z + advice.works[i]), 4) + " to " +
             mm(advice.sensor.at.z + advice.works[last]);
    i = last;
  }
  return "  Places along z at this r that work over sheet, tolerance and coil: " + words +
         ", told in steps of " + mm(step) + ".\n";
}

}  // namespace

std::string sensor_text(const SensorAdvice& advice) {
  std::string text = passage_lines(advice);
  text += "  The coil alone changes its field by up to " + mT(advice.coil.most_T) + ": ";
  text += advice.coil.trips ? "it TRIPS the sensor" : "it does not trip it";
  text += advice.coil.masks ? " and MASKS the magnet.\n" : " and does not mask the magnet.\n";
  return text + window_line(advice) +
         "  B of a table has no error bar; on axis, no eddy currents, no remanence.\n";
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
