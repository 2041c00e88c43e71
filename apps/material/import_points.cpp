// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/material/import_points.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "apps/device_file/exact_text.hpp"
#include "apps/output/number_text.hpp"
#include "materials/constants.hpp"
#include "materials/smooth_curve.hpp"

namespace coilpull {
namespace {

/// By rising H, points at the same H as one at the mean of their B.
std::vector<BhCurve::Point> merged(std::vector<BhFilePoint> points) {
  std::stable_sort(points.begin(), points.end(),
                   [](const auto& a, const auto& b) { return a.h_A_per_m < b.h_A_per_m; });
  std::vector<BhCurve::Point> once;
  int same = 0;
  for (const BhFilePoint& point : points) {
    if (!once.empty() && once.back().h_A_per_m == point.h_A_per_m) {
      ++same;
      once.back().b_T += (point.b_T - once.back().b_T) / same;
    } else {
      once.push_back({point.h_A_per_m, point.b_T});
      same = 1;
    }
  }
  return once;
}

std::vector<MovedPoint> moved_points(const BhFile& file, const std::vector<BhCurve::Point>& smooth) {
  std::vector<MovedPoint> moved;
  for (const BhFilePoint& point : file.points) {
    if (point.line == 0) continue;
    const auto at = std::find_if(smooth.begin(), smooth.end(), [&](const BhCurve::Point& candidate) {
      return candidate.h_A_per_m == point.h_A_per_m;
    });
    moved.push_back({point, at->b_T});
  }
  return moved;
}

/// Nine digits: far below what anybody measures, and short to read.
double nine_digits(double value) {
  char words[40];
  std::snprintf(words, sizeof words, "%.9g", value);
  return std::stod(words);
}

LawNumbers numbers_of(const std::vector<BhCurve::Point>& points, const ImportChoice& choice) {
  LawNumbers numbers;
  for (const auto& [h, b] : points)
    numbers.h_A_per_m.push_back(nine_digits(h)), numbers.b_T.push_back(nine_digits(b));
  if (choice.saturation_polarization_T)
    numbers.numbers["saturation_polarization_T"] = *choice.saturation_polarization_T;
  if (choice.initial_permeability) numbers.numbers["initial_permeability"] = *choice.initial_permeability;
  return numbers;
}

std::string line(const std::string& key, const std::string& value) { return key + " = " + value + "\n"; }

std::string column(double value, int digits, int width) {
  char words[48];
  std::snprintf(words, sizeof words, "%*.*g", width, digits, value);
  return words;
}

std::string moved_text(const std::vector<MovedPoint>& moved) {
  std::string text = "  line      H (A/m)    B in the file (T)    B after (T)    moved (mT)\n";
  double sum = 0, largest = 0;
  for (const auto& [before, b] : moved) {
    const double shift = b - before.b_T;
    sum += shift * shift;
    largest = std::max(largest, std::abs(shift));
    text += column(static_cast<double>(before.line), 6, 6) + column(before.h_A_per_m, 6, 13) +
            column(before.b_T, 6, 21) + column(b, 6, 15) + column(1e3 * shift, 3, 14) + "\n";
  }
  return "Smoothed: points moved by " + rounded(1e3 * std::sqrt(sum / static_cast<double>(moved.size())), 3) +
         " mT in the mean (rms), " + rounded(1e3 * largest, 3) + " mT at most.\n" + text;
}

std::string fit_text(const ImportedMaterial& material) {
  const LawFit& fit = *material.fit;
  std::string text = "Fitted law = " + toml_text(fit.numbers.law) + ":";
  for (const auto& [key, value] : fit.numbers.numbers) text += " " + key + " = " + rounded(value, 6);
  text += "\n  misses the points by " + rounded(1e3 * fit.rms_T, 3) + " mT in the mean (rms), " +
          rounded(1e3 * fit.largest_T, 3) + " mT at most" +
          (fit.settled ? "" : "; THE SEARCH DID NOT SETTLE") +
          "\n       H (A/m)    B of the point (T)    law - point (mT)\n";
  for (std::size_t i = 0; i < material.points.size(); ++i)
    if (material.points[i].h_A_per_m > 0)
      text += column(material.points[i].h_A_per_m, 6, 14) + column(material.points[i].b_T, 6, 22) +
              column(1e3 * fit.residual_T[i], 3, 20) + "\n";
  return text;
}

}  // namespace

ImportedMaterial import_points(const CsvFile& csv, const ImportChoice& choice) {
  const BhFile file = read_bh_file(csv);
  if (!choice.smooth) refuse_faults(file);
  std::vector<BhCurve::Point> points;
  for (const BhFilePoint& point : file.points) points.push_back({point.h_A_per_m, point.b_T});
  std::vector<MovedPoint> moved;
  if (choice.smooth) {
    points = smoothed(merged(file.points));
    moved = moved_points(file, points);
  }
  LawNumbers numbers = numbers_of(points, choice);
  std::optional<LawFit> fit;
  if (!choice.fit.empty()) {
    fit = fit_law(choice.fit, points);
    numbers = fit->numbers;
  }
  ImportedMaterial material{points, numbers, make_law(numbers), std::move(moved), std::move(fit), file.notes};
  if (const auto* curve = std::get_if<BhCurve>(&material.law); curve && !choice.saturation_polarization_T)
    material.notes.push_back("no saturation is stated: beyond the last point J tends to " +
                             rounded(curve->saturation_polarization(), 4) +
                             " T, which is extrapolated; state it with --saturation-T when it is known");
  return material;
}

std::string material_file_text(const ImportedMaterial& material, const ImportChoice& choice) {
  std::string text = line("name", toml_text(choice.name)) + line("source", toml_text(choice.source));
  const auto add = [&](const char* key, const std::string& words) {
    if (!words.empty()) text += line(key, toml_text(words));
  };
  add("family", choice.family);
  add("certainty", choice.certainty);
  add("condition", choice.condition);
  add("beyond", choice.beyond);
  if (!material.moved.empty())
    text += "# smoothed by least squares into the shape of a magnetization curve\n";
  if (material.fit)
    text += "# fitted to points with " + rounded(1e3 * material.fit->rms_T, 3) + " mT (rms), " +
            rounded(1e3 * material.fit->largest_T, 3) + " mT at most\n";
  if (!material.numbers.law.empty()) text += line("law", toml_text(material.numbers.law));
  for (const auto& [key, value] : material.numbers.numbers) text += line(key, toml_number(value));
  text += line("range_from_A_per_m", toml_number(nine_digits(material.points[1].h_A_per_m)));
  text += line("range_to_A_per_m", toml_number(nine_digits(material.points.back().h_A_per_m)));
  if (!material.numbers.h_A_per_m.empty())
    text += line("h_A_per_m", toml_numbers(material.numbers.h_A_per_m)) +
            line("b_T", toml_numbers(material.numbers.b_T));
  return text;
}

std::string import_text(const ImportedMaterial& material) {
  std::string text = std::to_string(material.points.size() - 1) + " points above zero, H up to " +
                     rounded(material.points.back().h_A_per_m, 6) + " A/m, B up to " +
                     rounded(material.points.back().b_T, 5) + " T.\n";
  for (const std::string& note : material.notes) text += "note: " + note + ".\n";
  if (!material.moved.empty()) text += moved_text(material.moved);
  if (material.fit) text += fit_text(material);
  return text;
}

}  // namespace coilpull
