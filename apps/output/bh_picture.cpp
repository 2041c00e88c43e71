// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/bh_picture.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {
namespace {

std::string kind_of(const SoftLaw& law) {
  struct Words {
    std::string operator()(const LinearLaw&) const { return "straight line"; }
    std::string operator()(const FroehlichLaw&) const { return "Froehlich"; }
    std::string operator()(const BrauerLaw&) const { return "Brauer"; }
    std::string operator()(const LangevinLaw&) const { return "Langevin"; }
    std::string operator()(const ArctangentLaw&) const { return "arctangent"; }
    std::string operator()(const BhCurve&) const { return "table"; }
  };
  return std::visit(Words{}, law);
}

/// Where the curve ends: the last point of a table, else saturation and 0.1 T beyond.
double highest_b(const SoftLaw& law) {
  if (const auto* curve = std::get_if<BhCurve>(&law)) return 1.05 * curve->last_b();
  return saturation_polarization(law).value_or(2) + 0.1;
}

std::vector<CurvePoint> curve_of(const SoftLaw& law) {
  constexpr int steps = 400;
  std::vector<CurvePoint> points;
  const double top = highest_b(law);
  for (int i = 1; i <= steps; ++i) {
    const double b = top * (i < 40 ? 0.1 * i / 40 : 0.1 + 0.9 * (i - 40) / (steps - 40));
    points.push_back({evaluate(law, b).h, b});
  }
  return points;
}

}  // namespace

std::optional<CurvesPicture> bh_picture(const Device& device) {
  std::vector<const Core*> cores;  // one a material
  for (const Core& core : device.cores)
    if (!is_linear(core.law) && std::none_of(cores.begin(), cores.end(), [&](const Core* seen) {
          return seen->material == core.material && kind_of(seen->law) == kind_of(core.law);
        }))
      cores.push_back(&core);
  if (cores.empty()) return std::nullopt;

  CurvesPicture picture;
  picture.title = device.title;
  picture.below = "flux density against field strength of the soft-magnetic materials as they are used";
  picture.x_words = "field strength H (A/m)";
  picture.y_words = "flux density B (T)";
  picture.x_logarithmic = true;
  bool dots = false;
  for (std::size_t i = 0; i < cores.size(); ++i) {
    const Core& core = *cores[i];
    const double t = cores.size() == 1 ? 0 : static_cast<double>(i) / static_cast<double>(cores.size() - 1);
    Curve curve{core.material + " (" + kind_of(core.law) + ")", on_order_scale(t), curve_of(core.law)};
    if (const auto* table = std::get_if<BhCurve>(&core.law))
      for (const BhCurve::Point& point : table->points())
        if (point.h_A_per_m > 0) curve.marks.push_back({point.h_A_per_m, point.b_T, true}), dots = true;
    picture.curves.push_back(std::move(curve));
  }
  if (dots) picture.foot = "dots: points of the table";
  return picture;
}

}  // namespace coilpull
