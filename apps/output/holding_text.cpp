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
  if (!alone.empty()) text += "starts by itself at " + alone + ";\n    ";
  text += "hardest start at " + rounded(in_mm(hardest->displacement), 4) + " mm with " +
          rounded(*(hardest->*least), 3) + " A";
  return text + (dead.empty() ? "; no dead spot.\n"
                              : ";\n    DEAD SPOT, no current of the table starts it: " + dead + ".\n");
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

/// From 0 outwards each balance turns held into let go, or back.
std::string balance_lines(const HoldAt& hold) {
  std::string text;
  for (const double side : {-1.0, 1.0}) {
    bool held = hold.held_off;
    for (const Measured& current : away_from_zero(hold.lets_go_A, side)) {
      held = !held;
      text += held ? "    Holding current " + with_bar(current) +
                         " A: it holds beyond, away from 0, and drops out below.\n"
                   : "    Release current " + with_bar(current) + " A: beyond it, away from 0, it lets go.\n";
    }
  }
  if (!text.empty()) return text;
  return hold.held_off ? "    No current of the table releases it.\n"
                       : "    No current of the table holds it.\n";
}

std::string hold_lines(const HoldAt& hold) {
  std::string text = "  Gap " + rounded(in_mm(hold.displacement), 4) + " mm: " + with_bar(hold.off_N) +
                     " N without current, " + rounded(hold.push_N, 4) + " N from outside:\n    ";
  text += hold.held_off
              ? "held, with " + rounded(std::abs(hold.off_N.value + hold.push_N) - hold.off_N.error, 4) +
                    " N to spare.\n"
              : "NOT held without current.\n";
  if (hold.remanent_plus_N && hold.remanent_minus_N)
    text += "    Steel left magnetised towards +z, -z: " + with_bar(*hold.remanent_plus_N) + ", " +
            with_bar(*hold.remanent_minus_N) + " N; bars of currents hold that bracket.\n";
  return text + balance_lines(hold);
}

/// What the supply drives, and where that starts the mover no more though the table's currents would.
std::string supply_lines(const HoldingAdvice& advice) {
  if (!advice.cold_A) return "";
  std::string text = "  The supply drives " + rounded(*advice.cold_A, 4) + " A cold";
  if (advice.hot_A)
    text += ", " + rounded(*advice.hot_A, 4) + " A with the winding at its insulation's limit";
  text += ".";
  for (const auto& [least, way] :
       {std::pair{&StartAt::to_plus_A, "+z"}, std::pair{&StartAt::to_minus_A, "-z"}}) {
    const auto weak = [&, least = least](const StartAt& at) {
      return at.*least && std::abs(*(at.*least)) > *advice.cold_A;
    };
    if (const std::string where = stretches(advice.starts, weak); !where.empty())
      text += std::string("\n    Towards ") + way + " too little at " + where + ".";
  }
  return text + "\n";
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
  text += supply_lines(advice);
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
                    at.to_plus_A.value_or(std::nan("")), at.to_minus_A.value_or(std::nan(""))});
  return csv_rows(
      "displacement_mm,off_and_outside_N,numerical_error_N,least_current_to_plus_A,least_current_to_minus_A",
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

std::string margin_text(const HoldingAdvice& advice) {
  std::string text =
      "  What the best current of the table leaves of its force after bar, friction and what pushes from\n"
      "  outside; from rest, below 0 nothing starts.\n";
  for (const auto& [margin, way] :
       {std::pair{&StartAt::plus_margin_N, "+z"}, std::pair{&StartAt::minus_margin_N, "-z"}}) {
    const auto less = [margin = margin](const StartAt& a, const StartAt& b) { return a.*margin < b.*margin; };
    const auto [least, most] = std::minmax_element(advice.starts.begin(), advice.starts.end(), less);
    if (least == advice.starts.end()) continue;
    text += std::string("  Towards ") + way + ": from " + rounded((*least).*margin, 3) + " N at " +
            rounded(in_mm(least->displacement), 4) + " mm to " + rounded((*most).*margin, 3) + " N at " +
            rounded(in_mm(most->displacement), 4) + " mm.\n";
  }
  return text;
}

std::string margin_csv(const HoldingAdvice& advice) {
  std::vector<std::vector<double>> rows;
  for (const StartAt& at : advice.starts)
    rows.push_back({in_mm(at.displacement), at.plus_margin_N, at.minus_margin_N});
  return csv_rows("displacement_mm,best_margin_to_plus_N,best_margin_to_minus_N", rows);
}

CurvesPicture margin_picture(const HoldingAdvice& advice, const std::string& title) {
  CurvesPicture picture;
  picture.title = title;
  picture.below =
      "force left over by the table's best current, after bar, friction and what pushes from outside";
  picture.x_words = "displacement (mm)";
  picture.y_words = "margin (N)";
  picture.foot = "above 0 it starts that way from rest; below 0 it does not";
  for (const auto& [margin, label, side] : {std::tuple{&StartAt::plus_margin_N, "towards +z", 1.0},
                                            std::tuple{&StartAt::minus_margin_N, "towards -z", -1.0}}) {
    Curve curve{label, on_signed_scale(side), {}};
    for (const StartAt& at : advice.starts) curve.points.push_back({in_mm(at.displacement), at.*margin});
    picture.curves.push_back(curve);
  }
  return picture;
}

}  // namespace coilpull
