// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/summary.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "apps/output/audit_text.hpp"
#include "apps/output/csvw_metadata.hpp"
#include "apps/output/findings.hpp"
#include "apps/output/magnet_text.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/sign_changes.hpp"

namespace coilpull {

const char* const cautions =
    "Take care: strong magnets snap together and hurt; windings run hot (resistance, heat and duty are not\n"
    "part of this table); coils and capacitors keep energy after switch-off. Follow your local codes.\n";

namespace {

std::string exact_mm(double metres) { return shortest(in_mm(metres)) + " mm"; }

std::string force_line(const ForceTable& table, const std::string& label, const Measurement* row,
                       const std::string& otherwise) {
  return label + (row ? with_bar(row->force_N) + " N " + where(table, *row) : otherwise) + "\n";
}

std::string off_line(const ForceTable& table) {
  const bool has_off = std::any_of(table.rows.begin(), table.rows.end(), [](const Measurement& row) {
    return std::all_of(row.currents_A.begin(), row.currents_A.end(), [](double a) { return a == 0; });
  });
  return force_line(table, "Current off, at most:       ", strongest_current_off(table),
                    has_off ? "no force" : "not in the table: add 0 to the currents to see it");
}

/// Evenly spread numbers below count, the first and the last among them, at most five.
std::vector<std::size_t> a_handful(std::size_t count) {
  constexpr std::size_t most = 5;
  std::vector<std::size_t> chosen;
  const std::size_t wanted = std::min(count, most);
  for (std::size_t i = 0; i < wanted; ++i)
    chosen.push_back(wanted == 1 ? 0 : (i * (count - 1) + (wanted - 1) / 2) / (wanted - 1));
  return chosen;
}

std::string changes_text(const std::vector<SignChange>& changes) {
  if (changes.empty()) return "none";
  std::string text;
  for (const SignChange& change : changes)
    text += (text.empty() ? "" : ", ") +
            with_bar({1e3 * change.displacement.value, 1e3 * change.displacement.error}) + " mm" +
            (change.holds ? " (pushed back to it)" : " (pushed away from it)");
  return text;
}

std::string sign_change_lines(const ForceTable& table) {
  if (displacement_count(table) < 2) return "";
  std::string text =
      "Where the force changes sign (a curve through the rows; bars: their own and the curve's):\n";
  const std::vector<std::size_t> chosen = a_handful(table.currents_per_displacement);
  for (const std::size_t current : chosen) {
    const std::string currents = currents_text(table.circuits, table.rows[current].currents_A);
    text +=
        "  " + (currents.empty() ? "" : currents + ": ") + changes_text(sign_changes(table, current)) + "\n";
  }
  if (chosen.size() < table.currents_per_displacement)
    text +=
        "  ... " + std::to_string(table.currents_per_displacement - chosen.size()) + " more in the table\n";
  return text;
}

std::string group_name(const std::vector<std::string>& moving) {
  if (moving.empty()) return "moving group";
  std::string names = moving.front();
  for (std::size_t i = 1; i < moving.size(); ++i)
    names += (i + 1 == moving.size() ? " and " : ", ") + moving[i];
  return names;
}

/// "pushes the plunger towards +z"; of a change of force in newtons.
std::string action(double force_N, const std::string& group) {
  return force_N > 0 ? "pushes the " + group + " towards +z" : "pulls the " + group + " towards -z";
}

/// What one current adds to the force of the reference row.
std::string added(const ForceTable& table, std::size_t circuit, const Measurement& with,
                  const Measurement& off) {
  return table.circuits[circuit] + " = " + rounded(with.currents_A[circuit], 4) + " A adds " +
         rounded(with.force_N.value - off.force_N.value, 3) + " N";
}

/// Half the sum and half the difference of what +I and -I do: below this share the smaller one is nothing.
constexpr double one_sided = 0.1;

std::string polarity_words(const ForceTable& table, const CurrentEffect& effect, const std::string& group) {
  const Measurement& some = effect.positive ? *effect.positive : *effect.negative;
  const std::string place =
      "At " + exact_mm(some.displacement) + ", where " + table.circuits[effect.circuit] + " acts most, ";
  if (!effect.off) {
    const double swing = effect.positive->force_N.value - effect.negative->force_N.value;
    return place + "going from negative to positive current " + action(swing, group) + " (by " +
           rounded(swing, 3) + " N).";
  }
  const auto change = [&](const Measurement* row) {
    return row ? row->force_N.value - effect.off->force_N.value : 0;
  };
  const double up = change(effect.positive), down = change(effect.negative);
  if (effect.positive && effect.negative && up * down > 0 &&
      std::abs(up - down) < one_sided * std::abs(up + down))
    return place + "either direction of current " + action(up, group) + " (" +
           added(table, effect.circuit, *effect.positive, *effect.off) + ").";
  std::string text = place;
  if (effect.positive)
    text += "a positive current " + action(up, group) + " (" +
            added(table, effect.circuit, *effect.positive, *effect.off) + ")";
  if (effect.negative)
    text += std::string(effect.positive ? ", " : "") + "a negative current " + action(down, group) + " (" +
            added(table, effect.circuit, *effect.negative, *effect.off) + ")";
  return text + ".";
}

std::string polarity_lines(const ForceTable& table, const std::vector<std::string>& moving) {
  std::string text;
  for (std::size_t circuit = 0; circuit < table.circuits.size(); ++circuit)
    if (const auto effect = largest_effect(table, circuit))
      text += "  " + polarity_words(table, *effect, group_name(moving)) + "\n";
  return "Polarity: positive current runs counter-clockwise seen from +z.\n" + text;
}

std::string quality_lines(const ForceTable& table) {
  const auto percent = [](double fraction) { return rounded(100 * fraction, 3) + " %"; };
  return "Widest numerical error bar: " + percent(table.tolerance_reached) + " of the largest force (" +
         rounded(table.peak_force_N, 4) + " N); asked: " + percent(table.tolerance_asked) + ". Order " +
         std::to_string(table.order) + ", " + std::to_string(table.triangles_least) + " to " +
         std::to_string(table.triangles_most) + " triangles.\n";
}

}  // namespace

std::string currents_text(const std::vector<std::string>& circuits, const std::vector<double>& currents_A) {
  std::string text;
  for (std::size_t i = 0; i < std::min(circuits.size(), currents_A.size()); ++i)
    text += (i == 0 ? "" : ", ") + circuits[i] + " = " + shortest(as_written(currents_A[i])) + " A";
  return text;
}

std::string where(const ForceTable& table, const Measurement& row) {
  const std::string currents = currents_text(table.circuits, row.currents_A);
  return "at " + exact_mm(row.displacement) + (currents.empty() ? "" : ", " + currents);
}

std::string trouble_text(const ForceTable& table) {
  struct Group {
    std::size_t rows = 0;
    std::map<std::string, const Measurement*> first_by_reason = {};
  };
  std::map<RowStatus, Group> groups;
  for (const Measurement& row : table.rows) {
    if (row.status == RowStatus::ok) continue;
    Group& group = groups[row.status];
    ++group.rows;
    group.first_by_reason.emplace(row.why, &row);
  }
  constexpr std::size_t reasons_shown = 3;
  std::string text;
  for (const auto& [status, group] : groups) {
    text += std::to_string(group.rows) + " of " + std::to_string(table.rows.size()) + " rows are " +
            word_for(status) + ".\n";
    std::size_t shown = 0;
    for (const auto& [reason, row] : group.first_by_reason) {
      if (reason.empty() || status == RowStatus::stopped) continue;
      if (++shown > reasons_shown) {
        text += "  ...\n";
        break;
      }
      text += "  " + where(table, *row) + ": " + reason + "\n";
    }
  }
  return text + audit_warnings(table);
}

std::string summary_text(const ForceTable& table, const std::vector<std::string>& moving) {
  std::string text = "Force on the " + group_name(moving) + " (+ pushes towards +z, - pulls towards -z):\n";
  text += force_line(table, "  strongest push:           ", strongest_push(table), "none");
  text += force_line(table, "  strongest pull:           ", strongest_pull(table), "none");
  text += off_line(table) + sign_change_lines(table) + polarity_lines(table, moving) + magnet_lines(table) +
          quality_lines(table) + audit_line(table);
  text += trouble_text(table);
  return text + "\n" + limits_of_the_table + "\n" + cautions;
}

}  // namespace coilpull
