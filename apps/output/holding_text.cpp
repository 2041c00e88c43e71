// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/holding_text.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "apps/output/csv_rows.hpp"
#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

using Least = std::optional<double> StartAt::*;

/// "from 3 to 5 mm, from 9 to 9.5 mm"; empty: nowhere.
template <class Holds>
std::string stretches(const std::vector<StartAt>& starts, const Holds& holds) {
  std::string words;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    if (!holds(starts[i])) continue;
    std::size_t last = i;
    while (last + 1 < starts.size() && holds(starts[last + 1])) ++last;
    words += (words.empty() ? "" : ", ") + rounded(in_mm(starts[i].displacement), 4) +
             (last > i ? " to " + rounded(in_mm(starts[last].displacement), 4) : "");
    i = last;
  }
  return words.empty() ? words : words + " mm";
}

std::string way_lines(const HoldingAdvice& advice, Least least, const std::string& way) {
  const StartAt *easiest = nullptr, *hardest = nullptr;
  for (const StartAt& at : advice.starts) {
    if (!(at.*least)) continue;
    if (!easiest || std::abs(*(at.*least)) < std::abs(*(easiest->*least))) easiest = &at;
    if (!hardest || std::abs(*(at.*least)) > std::abs(*(hardest->*least))) hardest = &at;
  }
  if (!easiest) return "  Towards " + way + ": no current of the table starts it anywhere.\n";
  const std::string dead = stretches(advice.starts, [least](const StartAt&at) { return !(at.*least); }),
                    alone = stretches(advice.starts,
                                      [least](const StartAt&at) { return at.*least && *(at.*least) == 0; });
  std::string text = "  Towards " + way + ": ";
  if (!alone.empty()) text += "starts by itself at " + alone + "; ";
  text += "hardest start at " + rounded(in_mm(hardest->displacement), 4) + " mm with " +
          rounded(*(hardest->*least), 3) + " A";
  return text + (dead.empty() ? "; no dead spot.\n"
                              : "; DEAD SPOT, no current of the table starts it: " + dead + ".\n");
}

/// Those of one sign, the weakest first.
std::vector<Measured> away_from_zero(const std::vector<Measured>& currents_A, double side) {
  std::vector<Measured> of_side;
  for (const Measured& current : currents_A)
    if ((current.value < 0) == (side < 0)) of_side.push_back(current);
  std::sort(of_side.begin(), of_side.end(),
            [](const Measured& a, const Measured& b) { return std::abs(a.value) < std::abs(b.value); });
  return of_side;
}

std::string hold_lines(const HoldAt& hold) {
  std::string text = "  Gap " + rounded(in_mm(hold.displacement), 4) + " mm: " + with_bar(hold.off_N) +
                     " N without current, " + rounded(hold.push_N, 4) + " N from outside: ";
  text += hold.held_off ? "held.\n" : "NOT held without current.\n";
  if (hold.remanent_plus_N && hold.remanent_minus_N)
    text += "    Steel left magnetised towards +z, -z: " + with_bar(*hold.remanent_plus_N) + ", " +
            with_bar(*hold.remanent_minus_N) + " N (a bracket).\n";
  for (const double side : {-1.0, 1.0}) {  // from 0 outwards, each balance turns held into let go or back
    bool held = hold.held_off;
    for (const Measured& current : away_from_zero(hold.lets_go_A, side)) {
      held = !held;
      text += "    Force and outside balance at " + with_bar(current) + " A: beyond it, away from 0, " +
              (held ? "it holds.\n" : "it lets go.\n");
    }
  }
  if (hold.lets_go_A.empty())
    text += hold.held_off ? "    No current of the table releases it.\n"
                          : "    No current of the table holds it.\n";
  return text;
}

}  // namespace

std::string holding_text(const HoldingAdvice& advice) {
  std::string text =
      "  Against " + rounded(advice.dry_friction_N, 4) +
      " N of dry friction and what pushes from outside; on axis, so no side pull adds friction.\n  Force "
      "bars are taken off first: what starts here starts surely.\n";
  text += way_lines(advice, &StartAt::to_plus_A, "+z") + way_lines(advice, &StartAt::to_minus_A, "-z");
  const std::string rests = stretches(advice.starts, [&](const StartAt& at) {
    return std::abs(at.off_N.value) + at.off_N.error <= advice.dry_friction_N;
  });
  if (!rests.empty()) text += "  Without current friction alone keeps it at " + rests + ".\n";
  for (const HoldAt& hold : advice.holds) text += hold_lines(hold);
  if (advice.holds.empty())
    text += "  [mechanics] hold_at_mm, a residual gap, would tell holding and release.\n";
  if (!advice.cores_without_remanence.empty() && !advice.holds.empty()) {
    std::string names;
    for (const std::string& name : advice.cores_without_remanence)
      names += (names.empty() ? "" : ", ") + name;
    text += "  Not in the remanence bracket, no coercive field is stated: " + names + ".\n";
  }
  return text +
         "  CAUTION: a held or jammed mover can let go at once; keep fingers and eyes out of its path.\n";
}

std::string holding_csv(const HoldingAdvice& advice) {
  std::vector<std::vector<double>> rows;
  for (const StartAt& at : advice.starts)
    rows.push_back({in_mm(at.displacement), at.off_N.value, at.off_N.error,
                    at.to_plus_A.value_or(std::nan("")), at.to_minus_A.value_or(std::nan("")),
                    at.plus_margin_N, at.minus_margin_N});
  return csv_rows(
      "displacement_mm,off_and_outside_N,numerical_error_N,least_current_to_plus_A,least_current_to_minus_A,"
      "best_margin_to_plus_N,best_margin_to_minus_N",
      rows);
}

CurvesPicture holding_picture(const HoldingAdvice& advice, const std::string& title) {
  CurvesPicture picture;
  picture.title = title;
  picture.below = "least current that starts the mover from rest";
  picture.x_words = "displacement (mm)";
  picture.y_words = "current (A)";
  picture.foot = "a hole in a curve: dead spot, no current of the table starts it that way";
  for (const auto& [least, label, side] : {std::tuple{&StartAt::to_plus_A, "towards +z", 1.0},
                                           std::tuple{&StartAt::to_minus_A, "towards -z", -1.0}}) {
    Curve curve{label, on_signed_scale(side), {}};
    for (const StartAt& at : advice.starts)
      curve.points.push_back({in_mm(at.displacement), (at.*least).value_or(std::nan(""))});
    picture.curves.push_back(curve);
  }
  return picture;
}

}  // namespace coilpull
