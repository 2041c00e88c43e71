// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/switching_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/csv_rows.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

std::string place(const Measured& at, bool is_end) {
  return is_end ? rounded(in_mm(at.value), 5) + " mm (end of the stroke)"
                : with_bar({1e3 * at.value, 1e3 * at.error}) + " mm";
}

std::string window_line(const SwitchingWindow& window) {
  return rounded(window.current_A, 4) + " A on at " + place(window.on, window.on_is_end) + ",\n    off at " +
         place(window.off, window.off_is_end) + ": " +
         with_bar({1e3 * window.gain_J.value, 1e3 * window.gain_J.error}) + " mJ";
}

/// What pulls once the current is off there.
std::string left_words(const SwitchingWindow& window) {
  return "    Once it is off there, " + with_bar(window.left_N) + " N stay, the pull without current.\n";
}

/// Of both windows the one that a mover leaves last.
const SwitchingWindow& goes_last(const SwitchingSide& side) {
  return side.sense * (side.reversed->off.value - side.plain->off.value) > 0 ? *side.reversed : *side.plain;
}

std::string side_lines(const SwitchingSide& side) {
  const std::string way = side.sense > 0 ? "  Towards +z: " : "  Towards -z: ";
  if (!side.plain) return way + "no current of the table adds work beyond its bar.\n";
  std::string text = way + window_line(*side.plain) + " more than without current.\n";
  if (!side.reversed)
    return text + left_words(*side.plain) + "    Reversing the current adds nothing there.\n";
  const Measured both{side.plain->gain_J.value + side.reversed->gain_J.value,
                      side.plain->gain_J.error + side.reversed->gain_J.error};
  return text + "    With the current reversed outside that: " + window_line(*side.reversed) + ",\n    together " +
         with_bar({1e3 * both.value, 1e3 * both.error}) + " mJ.\n" + left_words(goes_last(side));
}

std::vector<double> row_of(const SwitchingSide& side, const SwitchingWindow& window) {
  return {static_cast<double>(side.sense),
          window.current_A,
          in_mm(window.on.value),
          in_mm(window.on.error),
          in_mm(window.off.value),
          in_mm(window.off.error),
          window.gain_J.value,
          window.gain_J.error,
          window.left_N.value,
          window.left_N.error};
}

}  // namespace

std::string switching_text(const SwitchingAdvice& advice) {
  std::string text;
  if (advice.turns_off.empty())
    text += "  Without current the force changes its sign nowhere along the stroke.\n";
  for (const SignChange& turn : advice.turns_off)
    text +=
        "  Without current the force changes sign at " +
        with_bar({1e3 * turn.displacement.value, 1e3 * turn.displacement.error}) +
        (turn.holds ? " mm: the mover is pushed back to it.\n" : " mm: the mover is pushed away from it.\n");
  if (advice.strongest_off_N)
    text += "  Without current it pulls hardest at " + rounded(in_mm(advice.strongest_off_at), 5) +
            " mm: " + with_bar(*advice.strongest_off_N) + " N.\n";
  text += side_lines(advice.towards_plus) + side_lines(advice.towards_minus);
  return text +
         "  Statics: real current takes some time constants to rise and to fall, so switch earlier by the "
         "way\n"
         "  the mover travels meanwhile. The work is that of a mover that passes the window once.\n";
}

std::string switching_csv(const SwitchingAdvice& advice) {
  std::vector<std::vector<double>> rows;
  for (const SwitchingSide* side : {&advice.towards_plus, &advice.towards_minus}) {
    if (side->plain) rows.push_back(row_of(*side, *side->plain));
    if (side->reversed) rows.push_back(row_of(*side, *side->reversed));
  }
  return csv_rows(
      "sense,current_A,on_mm,on_numerical_error_mm,off_mm,off_numerical_error_mm,gain_J,gain_numerical_error_"
      "J,left_N,left_numerical_error_N",
      rows);
}

CurvesPicture switching_picture(const SwitchingAdvice& advice, const DriveTable& drive,
                                const std::string& title) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = "force with and without current; dots: switch on (full) and off (open), motion towards +z";
  picture.x_words = "displacement (mm)";
  picture.y_words = "axial force (N)";
  picture.labels_head = drive.circuit;
  picture.foot = "bands: numerical error bars; bars through dots: how surely the place is known";
  for (const double current_A :
       {std::max(-advice.current_A, drive.least_A()), 0.0, std::min(advice.current_A, drive.most_A())}) {
    Curve curve{rounded(current_A, 4) + " A",
                on_signed_scale(advice.current_A == 0 ? 0 : current_A / std::abs(advice.current_A)),
                {}};
    for (const double z : along(drive, 201)) {
      const Measured force = drive.force_N(z, current_A);
      curve.points.push_back({in_mm(z), force.value, force.error});
    }
    const SwitchingSide& side = advice.towards_plus;
    for (const auto* window :
         {side.plain ? &*side.plain : nullptr, side.reversed ? &*side.reversed : nullptr})
      if (window && window->current_A == current_A)
        for (const auto& [at, filled] : {std::pair{window->on, true}, std::pair{window->off, false}})
          curve.marks.push_back(
              {in_mm(at.value), drive.force_N(at.value, current_A).value, filled, in_mm(at.error)});
    picture.curves.push_back(curve);
  }
  return picture;
}

}  // namespace coilpull
