// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/comparison_text.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "apps/output/csv_cell.hpp"
#include "apps/output/findings.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/padded.hpp"
#include "apps/output/summary.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

/// "3.214 +- 0.012", or "2.1 to 3.4" for a pair of bounds.
std::string in_words(const Between& value, bool is_pair) {
  if (!std::isfinite(value.high)) return rounded(value.low, 3) + ", or never";
  if (is_pair) return rounded(value.low, 3) + " to " + rounded(value.high, 3);
  const double bar = 0.5 * (value.high - value.low);
  return bar > 0 ? with_bar({value.middle(), bar}) : rounded(value.middle(), 3);
}

using Merit = std::optional<Between> Merits::*;

struct List {
  std::string head, unit;
  Merit merit;
  double scale;
  bool largest_first;
  std::string missing;  ///< for a candidate without the number
};

std::string list_text(const List& list, const std::vector<SolvedCandidate>& candidates,
                      const std::vector<Merits>& merits) {
  std::vector<std::optional<Between>> values;
  for (const Merits& each : merits) {
    values.push_back(each.*list.merit);
    if (values.back()) values.back()->low *= list.scale, values.back()->high *= list.scale;
  }
  std::vector<std::size_t> order = ranked(values);
  if (!list.largest_first) std::reverse(order.begin(), order.end());
  if (order.empty()) return "";
  std::string text = list.head + " (" + list.unit + ")\n";
  for (std::size_t k = 0; k < order.size(); ++k) {
    const std::size_t i = order[k];
    const bool same = k > 0 && !differ(*values[order[k - 1]], *values[i]);
    text += "  " + padded(std::to_string(k + 1) + ". " + candidates[i].name, 36) +
            padded(in_words(*values[i], candidates[i].tables.size() > 1), 24) +
            (same ? "difference to the one above: none" : "") + "\n";
  }
  for (std::size_t i = 0; i < values.size(); ++i)
    if (!values[i]) text += "  " + padded("-  " + candidates[i].name, 36) + list.missing + "\n";
  return text;
}

std::string mesh_words(bool same_meshes) {
  return same_meshes ? "All were solved on the same meshes, so that what differs is the material.\n"
                     : "The shapes differ, so do the meshes.\n";
}

/// The row of the first candidate's table at the same place, when both tables have the same rows.
const Measurement* same_row(const ForceTable& first, const Measurement& row, std::size_t i) {
  if (i >= first.rows.size()) return nullptr;
  const Measurement& other = first.rows[i];
  return other.displacement == row.displacement && other.currents_A == row.currents_A ? &other : nullptr;
}

std::string difference_cells(const Measurement* first, const Measurement& row) {
  if (!first) return "NaN,not compared";
  const double difference = row.force_N.value - first->force_N.value;
  const double bar = row.force_N.error + first->force_N.error;
  return shortest(difference) + (!std::isfinite(difference)    ? ",not compared"
                                 : std::abs(difference) <= bar ? ",none"
                                 : difference > 0              ? ",higher"
                                                               : ",lower");
}

}  // namespace

std::string comparison_text(const std::vector<SolvedCandidate>& candidates, bool same_meshes) {
  std::vector<Merits> merits;
  merits.reserve(candidates.size());
  for (const SolvedCandidate& candidate : candidates) merits.push_back(merits_of(candidate));
  std::string text = mesh_words(same_meshes) + "\n";
  text += list_text({"Strongest force anywhere in the table", "N", &Merits::peak_N, 1, true, "none"},
                    candidates, merits);
  text += list_text(
      {"Strongest force with the current off", "N", &Merits::off_N, 1, true, "none, or not in the table"},
      candidates, merits);
  text += list_text({"Work along the stroke in one direction, currents kept", "mJ", &Merits::stroke_work_J,
                     1e3, true, "one displacement only"},
                    candidates, merits);
  text +=
      list_text({"Current at which the core is full (1 % of it above 90 % of its saturation), weakest first",
                 "A", &Merits::full_A, 1, false, "never in this table"},
                candidates, merits);
  for (std::size_t i = 0; i < candidates.size(); ++i)
    if (merits[i].changed_for_good)
      text += "warning: " + candidates[i].name +
              " drives a magnet past its knee: its numbers hold once at best.\n";
  const bool pairs = std::any_of(candidates.begin(), candidates.end(), [](const SolvedCandidate& candidate) {
    return candidate.tables.size() > 1;
  });
  if (pairs)
    text +=
        "\"a to b\": of this material only two bounds are known. The truth lies between them; "
        "where is not known.\n";
  return text +
         "Bars and ranges are of the computation and of a pair's two laws; grade, gap and temperature come "
         "on top.\n";
}

std::string comparison_csv(const std::vector<SolvedCandidate>& candidates) {
  std::string text = "candidate,bound,displacement_mm";
  for (const std::string& circuit : candidates.front().tables.front().circuits)
    text += ",current_" + circuit + "_A";
  text += ",force_N,force_numerical_error_N,difference_to_first_N,difference,status\r\n";
  const ForceTable& first = candidates.front().tables.front();
  for (const SolvedCandidate& candidate : candidates)
    for (std::size_t t = 0; t < candidate.tables.size(); ++t) {
      const std::string bound = candidate.tables.size() == 1 ? "" : t == 0 ? "weak" : "strong";
      for (std::size_t i = 0; i < candidate.tables[t].rows.size(); ++i) {
        const Measurement& row = candidate.tables[t].rows[i];
        text += csv_cell(candidate.name) + "," + bound + "," + shortest(in_mm(row.displacement));
        for (const double current_A : row.currents_A) text += "," + shortest(as_written(current_A));
        text += "," + shortest(row.force_N.value) + "," + shortest(row.force_N.error) + "," +
                difference_cells(same_row(first, row, i), row) + "," + word_for(row.status) + "\r\n";
      }
    }
  return text;
}

CurvesPicture comparison_picture(const std::vector<SolvedCandidate>& candidates, const std::string& title) {
  const ForceTable& first = candidates.front().tables.front();
  const Measurement *push = strongest_push(first), *pull = strongest_pull(first);
  const Measurement* strongest = !push                                                 ? pull
                                 : !pull || push->force_N.value > -pull->force_N.value ? push
                                                                                       : pull;
  const std::vector<double> currents = strongest ? strongest->currents_A : first.rows.front().currents_A;
  const std::string at = currents_text(first.circuits, currents);
  CurvesPicture picture{title, "force" + (at.empty() ? "" : " at " + at), "displacement (mm)", "force (N)"};
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    const double t =
        candidates.size() < 2 ? 0 : static_cast<double>(c) / static_cast<double>(candidates.size() - 1);
    Curve curve{candidates[c].name, on_order_scale(t), {}};
    const std::vector<ForceTable>& tables = candidates[c].tables;
    for (std::size_t i = 0; i < tables.front().rows.size(); ++i) {
      if (tables.front().rows[i].currents_A != currents) continue;
      double low = std::numeric_limits<double>::infinity(), high = -low;
      for (const ForceTable& table : tables) {
        low = std::min(low, table.rows[i].force_N.value - table.rows[i].force_N.error);
        high = std::max(high, table.rows[i].force_N.value + table.rows[i].force_N.error);
      }
      const bool good = std::isfinite(low) && std::isfinite(high);
      curve.points.push_back({in_mm(tables.front().rows[i].displacement), good ? 0.5 * (low + high) : nan,
                              good ? 0.5 * (high - low) : 0});
    }
    std::stable_sort(curve.points.begin(), curve.points.end(),
                     [](const CurvePoint& a, const CurvePoint& b) { return a.x < b.x; });
    picture.curves.push_back(std::move(curve));
  }
  picture.foot = "bands: numerical error bars; of a pair of bounds, from one to the other";
  return picture;
}

}  // namespace coilpull
