// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/judgement_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/device_file/nearest_name.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/summary.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

using Points = std::vector<const JudgedPoint*>;
constexpr std::size_t most_lines = 12;

std::string signed_text(double value, int digits) {
  return std::string(value < 0 ? "" : "+") + rounded(value, digits);
}

std::string counted(std::size_t count, const char* one, const char* many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string place(const JudgedPoint& point, const std::vector<std::string>& circuits) {
  const std::string currents = currents_text(circuits, point.currents_A);
  return millimetres(point.displacement, 6) + (currents.empty() ? "" : ", " + currents);
}

std::string in_bars(const JudgedPoint& point) {
  const double allowed = point.allowed_N();
  return allowed > 0 ? rounded(std::abs(point.difference_N()) / allowed, 3) + " bars" : "the bar is 0";
}

std::string difference_lines(const Points& points, const Judgement& all, const ForceTableFile& table) {
  const JudgedPoint& worst = **std::max_element(
      points.begin(), points.end(),
      [](const auto* a, const auto* b) { return std::abs(a->difference_N()) < std::abs(b->difference_N()); });
  const auto percent = [&](double force_N) {
    return rounded(100 * std::abs(force_N) / all.peak_force_N, 2) + " %";
  };
  const double rms = rms_difference_N(points);
  const auto inside = std::count_if(points.begin(), points.end(),
                                    [](const auto* p) { return p->verdict == AgainstBar::inside; });
  std::string text =
      "Difference, yours less the table's: rms " + rounded(rms, 3) + " N, " + percent(rms) +
      " of the table's peak of " + rounded(all.peak_force_N, 4) + " N\n" +
      "Largest: " + signed_text(worst.difference_N(), 3) + " N (" + percent(worst.difference_N()) + ", " +
      in_bars(worst) + ") at " + place(worst, table.circuits) + ", line " + std::to_string(worst.line) +
      "\n" + "Inside the bar: " + std::to_string(inside) + " of " + std::to_string(points.size()) +
      ". A bar is the table's numerical error, what reading between\nits rows costs, and twice your "
      "own uncertainty where your file states one.\n";
  if (table.has_spread) {
    const auto spread = std::count_if(points.begin(), points.end(),
                                      [](const auto* p) { return p->inside_spread().value_or(false); });
    text += "Inside what the spread of the input leaves: " + std::to_string(spread) + " of " +
            std::to_string(points.size()) + "\n";
  }
  return text;
}

/// Points of each set of currents, by rising displacement.
std::vector<Points> by_currents(Points points) {
  std::stable_sort(points.begin(), points.end(), [](const auto* a, const auto* b) {
    return a->currents_A != b->currents_A ? a->currents_A < b->currents_A : a->displacement < b->displacement;
  });
  std::vector<Points> sets;
  for (const JudgedPoint* point : points) {
    if (sets.empty() || sets.back().front()->currents_A != point->currents_A) sets.emplace_back();
    sets.back().push_back(point);
  }
  return sets;
}

/// "12 to 20 mm (5 points, worst +0.4 N at 16 mm)", joined.
std::string stretches_outside(const Points& points) {
  std::string text;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i]->verdict != AgainstBar::outside) continue;
    const std::size_t from = i;
    const JudgedPoint* worst = points[i];
    for (; i < points.size() && points[i]->verdict == AgainstBar::outside; ++i)
      if (std::abs(points[i]->difference_N()) > std::abs(worst->difference_N())) worst = points[i];
    const std::string where = i - from == 1 ? "at " + millimetres(worst->displacement, 6)
                                            : rounded(in_mm(points[from]->displacement), 6) + " to " +
                                                  millimetres(points[i - 1]->displacement, 6);
    text += (text.empty() ? "" : "; ") + where + " (" + signed_text(worst->difference_N(), 3) + " N" +
            (i - from == 1 ? "" : " at " + millimetres(worst->displacement, 6)) + ")";
  }
  return text;
}

std::string outside_lines(const Points& points, const std::vector<std::string>& circuits) {
  std::string text;
  std::size_t lines = 0, left_out = 0;
  for (const Points& set : by_currents(points)) {
    const std::string where = stretches_outside(set);
    if (where.empty()) continue;
    const std::string currents = currents_text(circuits, set.front()->currents_A);
    if (++lines <= most_lines)
      text += "  " + (currents.empty() ? "" : currents + ": ") + where + "\n";
    else
      ++left_out;
  }
  if (text.empty()) return "Your forces nowhere leave the bar.\n";
  if (left_out > 0)
    text += "  and at " + counted(left_out, "more set", "more sets") + " of currents, see the file\n";
  return "They leave the bar\n" + text;
}

std::string factor_words(double amount) {
  if (amount < 0 && amount > -2 && amount < -0.5)
    return "your forces have the other sign (here + pushes towards +z), size " + rounded(-amount, 4) +
           " times the table's";
  if (amount < 0.5 || amount > 2)
    return "your forces are " + rounded(amount, 4) + " times the table's: is the unit right?";
  return "your forces are " + rounded(100 * std::abs(amount - 1), 2) + " % " + (amount > 1 ? "high" : "low") +
         " throughout";
}

std::string cause_words(const LikelyCause& cause) {
  switch (cause.kind) {
    case LikelyCause::Kind::factor:
      return factor_words(cause.amount);
    case LikelyCause::Kind::displacement:
      return "your displacements read " + rounded(std::abs(in_mm(cause.amount)), 2) + " mm too " +
             (cause.amount > 0 ? "small" : "large");
    case LikelyCause::Kind::constant:
      return "your forces are " + signed_text(cause.amount, 2) +
             " N off throughout, as by a scale that was not at zero or a weight";
  }
  return "";
}

bool mostly_outside(const Points& points) {
  const auto outside = std::count_if(points.begin(), points.end(), [](const JudgedPoint* point) {
    return point->verdict == AgainstBar::outside;
  });
  return 2 * static_cast<std::size_t>(outside) > points.size();
}

std::string not_judged_lines(const Judgement& all, const std::vector<std::string>& circuits) {
  std::string text;
  std::size_t count = 0;
  for (const JudgedPoint& point : all.points) {
    if (point.verdict != AgainstBar::not_judged) continue;
    if (++count <= most_lines)
      text +=
          "  line " + std::to_string(point.line) + ", " + place(point, circuits) + ": " + point.why + "\n";
  }
  if (count == 0) return "";
  if (count > most_lines) text += "  and " + std::to_string(count - most_lines) + " more, see the file\n";
  return "Not judged: " + std::to_string(count) + "; nothing is told beyond the table\n" + text;
}

}  // namespace

std::string judgement_text(const Judgement& judgement, const ForceTableFile& table, const MeasuredFile& mine,
                           const std::optional<LikelyCause>& cause) {
  const Points points = judgement.judged();
  std::string text = mine.name + ", column \"" + mine.columns.front().header + "\", laid over " + table.name +
                     ": " + counted(judgement.points.size(), "point", "points") + "\n";
  if (!mine.not_read.empty()) text += "Columns not read: " + listed(mine.not_read) + "\n";
  text += "\n";
  if (points.empty()) return text + not_judged_lines(judgement, table.circuits);
  text += difference_lines(points, judgement, table) + outside_lines(points, table.circuits);
  if (cause)
    text += "A hint, not a finding: " + cause_words(*cause) +
            ". With that taken away\nthe rms difference is " + rounded(cause->rms_after_N, 2) +
            " N instead of " + rounded(cause->rms_before_N, 2) + " N.\n";
  else if (mostly_outside(points))
    text +=
        "No one factor, shift or constant explains most of it. `coilpull calibrate` fits several at once.\n";
  return text + not_judged_lines(judgement, table.circuits);
}

std::string judgement_csv(const Judgement& judgement, const std::vector<std::string>& circuits) {
  std::string text = "line,displacement_mm";
  for (const std::string& circuit : circuits) text += ",current_" + circuit + "_A";
  text +=
      ",mine_N,mine_bar_N,table_N,difference_N,table_numerical_error_N,between_rows_error_N,table_low_N,"
      "table_high_N,verdict,inside_spread,why\r\n";
  for (const JudgedPoint& point : judgement.points) {
    text += std::to_string(point.line) + "," + shortest(in_mm(point.displacement));
    for (const double current_A : point.currents_A) text += "," + shortest(as_written(current_A));
    const GridForce table = point.table.value_or(GridForce{nan, nan, nan, nan, nan});
    for (const double value : {point.mine_N, point.mine_bar_N, table.force_N, point.mine_N - table.force_N,
                               table.bar_N, table.between_rows_N, table.low_N, table.high_N})
      text += "," + shortest(as_written(value));
    const auto spread = point.inside_spread();
    text += point.verdict == AgainstBar::inside    ? ",inside"
            : point.verdict == AgainstBar::outside ? ",outside"
                                                   : ",not judged";
    text += std::string(",") + (!spread ? "" : *spread ? "yes" : "no") + ",\"" + point.why + "\"\r\n";
  }
  return text;
}

}  // namespace coilpull
