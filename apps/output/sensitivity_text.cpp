// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sensitivity_text.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/csv_cell.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/padded.hpp"

namespace coilpull {
namespace {

constexpr double worth_a_line = 1e-3;  ///< of the largest effect
constexpr double unsure = 0.2;         ///< change between orders, of the number

/// A centre that was computed may miss 0 by a rounding.
std::string place_mm(double metres) { return rounded(std::abs(metres) < 1e-12 ? 0 : in_mm(metres), 6); }

std::string joined(const std::vector<ChangeName>& names, std::string ChangeName::*which,
                   const char* between) {
  std::string text;
  for (const ChangeName& name : names) text += (text.empty() ? "" : between) + name.*which;
  return text;
}

/// "r 6 mm, z -8 to 0 mm", "r 3, z 4 to r 6, z 0 mm", "about r 0, z 12 mm".
std::string place_text(const Edge& edge) {
  const auto range = [](const char* name, double a, double b) {
    return name + place_mm(std::min(a, b)) + " to " + place_mm(std::max(a, b)) + " mm";
  };
  const auto point = [](Point p) { return "r " + place_mm(p.r) + ", z " + place_mm(p.z); };
  if (edge.centre) return "about " + point(*edge.centre) + " mm";
  if (edge.from.r == edge.to.r)
    return "r " + place_mm(edge.from.r) + " mm, " + range("z ", edge.from.z, edge.to.z);
  if (edge.from.z == edge.to.z)
    return "z " + place_mm(edge.from.z) + " mm, " + range("r ", edge.from.r, edge.to.r);
  return point(edge.from) + " to " + point(edge.to) + " mm";
}

std::string per_text(const Sensitivity& one) { return one.is_length ? "0.1 mm" : "1 %"; }

std::string unit_of(const Sensitivity& one) {
  if (one.is_length) return "mm";
  const std::string& quantity = one.of.front().quantity;
  if (quantity == "remanence" || quantity == "polarization" || quantity == "B_z") return "T";
  return quantity == "current" ? "A" : "";
}

std::string present_text(const Sensitivity& one, double value) {
  const std::string number = one.is_length ? place_mm(value) : rounded(value, 6);
  return unit_of(one).empty() ? number : number + " " + unit_of(one);
}

std::string signed_number(double value) { return std::string(value < 0 ? "" : "+") + rounded(value, 3); }

std::string percent_of_effect(double share) {
  if (!(share < 1)) return "over 100";
  return rounded(100 * share, share < 0.095 ? 1 : 2);
}

/// What moves, where the words leave it open.
std::string meaning_of(const std::string& quantity) {
  if (quantity == "gap") return " (the fixed face goes back)";
  if (quantity == "axial gap") return " (the moving parts go away)";
  if (quantity == "turns") return " (at the same current)";
  if (quantity == "polarization") return " (J at every H, the saturation with it)";
  return "";
}

std::string line(const Sensitivity& one) {
  std::string what;
  for (const ChangeName& name : one.of)
    what += (what.empty() ? "" : " = ") + name.part + ": " + name.quantity;
  if (one.present && !(one.place && !one.place->centre))
    what += std::string(" ") + present_text(one, *one.present);
  if (one.place) what += " (" + place_text(*one.place) + ")";
  what += meaning_of(one.of.front().quantity);
  const double effect = std::abs(one.effect_N());
  return std::string("  ") + padded(signed_number(one.effect_N()) + " N", 14) +
         padded("per " + per_text(one), 12) +
         padded(std::string("(") + percent_of_effect(one.effect_error_N() / effect) + " %)", 14) + what +
         "\n";
}

}  // namespace

std::string sensitivity_text(const SensitivityList& list, int order) {
  std::string text = "What moves the force of " + rounded(list.force_N, 5) + " N, largest first\n";
  const double largest = list.ranked.empty() ? 0 : std::abs(list.ranked.front().effect_N());
  std::size_t shown = 0;
  bool some_unsure = false;
  for (const Sensitivity& one : list.ranked) {
    if (std::abs(one.effect_N()) < worth_a_line * largest || largest == 0) break;
    text += line(one);
    some_unsure |= one.effect_error_N() > unsure * std::abs(one.effect_N());
    ++shown;
  }
  if (shown < list.ranked.size())
    text += "  and " + std::to_string(list.ranked.size() - shown) + " below " +
            rounded(worth_a_line * largest, 1) + " N\n";
  if (some_unsure)
    text += "What changed by more than " + rounded(100 * unsure, 2) +
            " % is not resolved by this mesh: ask for a smaller tolerance.\n";
  return text +
         "To first order, one at a time: radii and z grow, slanted faces move outward, the neighbours of a "
         "moved "
         "face keep\ntheir lines, parts that touch keep touching, windings keep their turns. The percentage "
         "tells "
         "how much the number\nchanged from order " +
         std::to_string(order) + " to " + std::to_string(order + 1) + ".\n";
}

std::string sensitivity_csv(const SensitivityList& list) {
  std::string text = "part,quantity,place,present,unit,per,change_N,change_between_orders_N\r\n";
  for (const Sensitivity& one : list.ranked) {
    const double present = !one.present ? NAN : one.is_length ? in_mm(*one.present) : *one.present;
    text += csv_cell(joined(one.of, &ChangeName::part, " = ")) + "," +
            csv_cell(joined(one.of, &ChangeName::quantity, " = ")) + "," +
            csv_cell(one.place ? place_text(*one.place) : "") + "," + shortest(present) + "," + unit_of(one) +
            "," + per_text(one) + "," + shortest(as_written(one.effect_N())) + "," +
            shortest(as_written(one.effect_error_N())) + "\r\n";
  }
  return text;
}

}  // namespace coilpull
