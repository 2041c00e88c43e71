// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/table_pictures.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "apps/output/findings.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/sign_changes.hpp"
#include "materials/detail/nan.hpp"

namespace coilpull {
namespace {

constexpr std::size_t most_curves = 9;

/// Circuits whose current is not the same in every set.
std::vector<std::size_t> varied_circuits(const Device& device) {
  std::vector<std::size_t> varied;
  for (std::size_t k = 0; k < device.circuits.size(); ++k)
    if (std::any_of(device.currents_A.begin(), device.currents_A.end(),
                    [&](const auto& set) { return set[k] != device.currents_A.front()[k]; }))
      varied.push_back(k);
  return varied;
}

std::string ampere(double current_A) { return shortest(as_written(current_A)) + " A"; }

std::string label_of(const Device& device, std::size_t set) {
  const std::vector<double>& currents = device.currents_A[set];
  const std::vector<std::size_t> varied = varied_circuits(device);
  if (varied.size() == 1) return ampere(currents[varied.front()]);
  std::string words;
  for (std::size_t k = 0; k < device.circuits.size(); ++k)
    if (currents[k] != 0)
      words += (words.empty() ? "" : ", ") + device.circuits[k] + " " + ampere(currents[k]);
  return words.empty() ? "current off" : words;
}

Colour colour_of(const Device& device, std::size_t set) {
  const std::vector<std::size_t> varied = varied_circuits(device);
  if (varied.size() == 1) {
    double largest = 0;
    for (const auto& currents : device.currents_A) largest = std::max(largest, std::abs(currents[varied[0]]));
    return on_signed_scale(device.currents_A[set][varied[0]] / largest);
  }
  const std::size_t last = device.currents_A.size() - 1;
  return on_order_scale(last == 0 ? 0 : static_cast<double>(set) / static_cast<double>(last));
}

bool past_knee(const Measurement& row) {
  return std::any_of(row.magnets.begin(), row.magnets.end(),
                     [](const MagnetState& magnet) { return magnet.changed_for_good(); });
}

using Quantity = std::function<Measured(const Measurement&)>;

std::vector<CurvePoint> points_of(const ForceTable& table, std::size_t set, double scale,
                                  const Quantity& quantity) {
  std::vector<CurvePoint> points;
  for (std::size_t i = set; i < table.rows.size(); i += table.currents_per_displacement) {
    const Measured value = quantity(table.rows[i]);
    points.push_back({in_mm(table.rows[i].displacement), scale * value.value, scale * value.error,
                      past_knee(table.rows[i])});
  }
  std::stable_sort(points.begin(), points.end(),
                   [](const CurvePoint& a, const CurvePoint& b) { return a.x < b.x; });
  return points;
}

/// Factor and unit in which the largest value reads well.
struct Unit {
  double scale;
  std::string words;
};

Unit unit_for(const ForceTable& table, const Quantity& quantity, const std::string& unit) {
  double largest = 0;
  for (const Measurement& row : table.rows)
    if (const double value = std::abs(quantity(row).value); std::isfinite(value))
      largest = std::max(largest, value);
  if (largest >= 1e4) return {1e-3, "k" + unit};
  if (largest >= 0.3 || largest == 0) return {1, unit};
  if (largest >= 0.3e-3) return {1e3, "m" + unit};
  return {1e6, "u" + unit};
}

CurvesPicture picture_of(const ForceTable& table, const Device& device, const std::string& what,
                         const std::string& unit, const Quantity& quantity) {
  const Unit scaled = unit_for(table, quantity, unit);
  const std::vector<std::size_t> varied = varied_circuits(device);
  const std::vector<std::size_t> shown = readable_subset(table.currents_per_displacement);
  CurvesPicture picture;
  picture.title = device.title;
  picture.below = what + ", one curve a current; bands: numerical error bars";
  if (shown.size() < table.currents_per_displacement)
    picture.below += "; " + std::to_string(shown.size()) + " of " +
                     std::to_string(table.currents_per_displacement) +
                     " currents, the others are in the table";
  picture.x_words = "displacement (mm)";
  picture.y_words = what.substr(0, what.find(" on ")) + " (" + scaled.words + ")";
  picture.labels_head = varied.size() == 1 ? device.circuits[varied.front()] : "";
  for (const std::size_t set : shown)
    picture.curves.push_back(
        {label_of(device, set), colour_of(device, set), points_of(table, set, scaled.scale, quantity)});
  return picture;
}

std::string joined(const std::vector<std::string>& names) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i)
    all += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return all;
}

}  // namespace

std::vector<std::size_t> readable_subset(std::size_t count) {
  std::size_t wanted = std::min(count, most_curves);
  if (count > most_curves)  // a number that spaces them evenly, if there is one
    for (std::size_t k = most_curves; k >= 5; --k)
      if ((count - 1) % (k - 1) == 0) {
        wanted = k;
        break;
      }
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < wanted; ++i)
    chosen.push_back(wanted == 1 ? 0 : (i * (count - 1) + (wanted - 1) / 2) / (wanted - 1));
  return chosen;
}

CurvesPicture force_picture(const ForceTable& table, const Device& device) {
  const Quantity force = [](const Measurement& row) { return row.force_N; };
  CurvesPicture picture =
      picture_of(table, device,
                 "axial force on " + (device.moving.empty() ? "nothing" : joined(device.moving)), "N", force);
  const std::vector<std::size_t> shown = readable_subset(table.currents_per_displacement);
  bool marked = false;
  for (std::size_t i = 0; i < shown.size(); ++i)
    for (const SignChange& change : sign_changes(table, shown[i])) {
      picture.curves[i].marks.push_back(
          {1e3 * change.displacement.value, 0, change.holds, 1e3 * change.displacement.error});
      marked = true;
    }
  picture.foot = "force > 0 pushes towards +z, < 0 pulls towards -z";
  if (marked) picture.foot += ".  Zeros with bars: full dot = pushed back to it, open dot = pushed away";
  if (std::any_of(table.rows.begin(), table.rows.end(), past_knee))
    picture.foot =
        "CROSSED OUT: a magnet is past its knee there and changed for good; these forces are not true";
  return picture;
}

CurvesPicture approximation_picture(const ForceTable& table, const Device& device, std::size_t which) {
  const Quantity force = [](const Measurement& row) { return row.force_N; };
  const Quantity formula = [which](const Measurement& row) {
    return Measured{which < row.approximate_force_N.size() ? row.approximate_force_N[which] : nan, 0};
  };
  CurvesPicture picture = picture_of(table, device, "axial force on " + joined(device.moving), "N", force);
  const double scale = unit_for(table, force, "N").scale;
  const std::vector<std::size_t> shown = readable_subset(table.currents_per_displacement);
  std::vector<Curve> both;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    both.push_back(picture.curves[i]);
    both.push_back({"", colour_of(device, shown[i]), points_of(table, shown[i], scale, formula)});
    both.back().dashed = true;
  }
  picture.curves = std::move(both);
  picture.foot = "full lines: finite elements; dashed: " + table.approximations.at(which) +
                 ", a closed formula that does not know all of the device";
  return picture;
}

CurvesPicture approximation_ratio_picture(const ForceTable& table, const Device& device, std::size_t which) {
  const Quantity ratio = [&table, which](const Measurement& row) {
    const bool told =
        which < row.approximate_force_N.size() && std::abs(row.force_N.value) >= 0.05 * table.peak_force_N;
    return told ? Measured{row.approximate_force_N[which] / row.force_N.value,
                           std::abs(row.approximate_force_N[which] * row.force_N.error /
                                    (row.force_N.value * row.force_N.value))}
                : Measured{nan, nan};
  };
  CurvesPicture picture =
      picture_of(table, device, table.approximations.at(which) + " over finite elements", "", ratio);
  picture.y_words = "force by formula over force_N";
  for (std::size_t i = 0; i < picture.curves.size(); ++i)
    picture.curves[i].points =
        points_of(table, readable_subset(table.currents_per_displacement)[i], 1, ratio);
  picture.foot = "1: the formula is right.  Left out where force_N is below a twentieth of its peak";
  return picture;
}

CurvesPicture spread_picture(const ForceTable& table, const Device& device) {
  const Quantity force = [](const Measurement& row) { return row.force_N; };
  const Quantity range = [](const Measurement& row) {
    if (!row.spread) return Measured{nan, nan};
    return Measured{0.5 * (row.spread->low_N + row.spread->high_N),
                    0.5 * (row.spread->high_N - row.spread->low_N)};
  };
  CurvesPicture picture = picture_of(table, device, "axial force on " + joined(device.moving), "N", force);
  const double scale = unit_for(table, force, "N").scale;
  const std::size_t last = table.currents_per_displacement - 1;
  std::vector<std::size_t> shown = {0, last / 2, last};
  shown.erase(std::unique(shown.begin(), shown.end()), shown.end());
  picture.curves.clear();
  for (const std::size_t set : shown) {
    picture.curves.push_back({"", colour_of(device, set), points_of(table, set, scale, range)});
    picture.curves.back().band_only = true;
    picture.curves.push_back(
        {label_of(device, set), colour_of(device, set), points_of(table, set, scale, force)});
  }
  picture.below = "axial force with what the input leaves open";
  picture.foot =
      "pale band: spread of the input, all at its worst at once; dark band: numerical error bar, often "
      "thinner than the line";
  return picture;
}

CurvesPicture linkage_picture(const ForceTable& table, const Device& device, std::size_t circuit) {
  return picture_of(table, device, "flux linkage of " + device.circuits.at(circuit), "Wb",
                    [circuit](const Measurement& row) {
                      return circuit < row.linkage_Wb.size() ? row.linkage_Wb[circuit] : Measured{nan, nan};
                    });
}

}  // namespace coilpull
