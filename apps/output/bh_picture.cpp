// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/bh_picture.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"
#include "materials/law_from_numbers.hpp"

namespace coilpull {
namespace {

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

/// Colours of that many curves in turn.
Colour colour_of(std::size_t i, std::size_t count) {
  return on_order_scale(count < 2 ? 0 : static_cast<double>(i) / static_cast<double>(count - 1));
}

/// Laid through x(b), y(b) up to 2.9 T or so; dashed from where nothing is known.
template <class Spot>
void add_curve(CurvesPicture& picture, const DrawnLaw& drawn, const Colour& colour, double top_T, Spot spot) {
  constexpr int steps = 600;
  Curve known{drawn.name, colour, {}}, tail{drawn.name, colour, {}};
  tail.dashed = true;
  for (int i = 1; i <= steps; ++i) {
    const double t = static_cast<double>(i) / steps, b = top_T * t * t;  // closely in weak fields
    const bool is_tail = drawn.known_to_T && b > *drawn.known_to_T;
    (is_tail ? tail : known).points.push_back(spot(b));
  }
  if (!tail.points.empty() && !known.points.empty())
    tail.points.insert(tail.points.begin(), known.points.back());
  picture.curves.push_back(std::move(known));
  if (!tail.points.empty()) picture.curves.push_back(std::move(tail));
}

std::string foot_of(const std::vector<DrawnLaw>& laws) {
  const bool dots =
      std::any_of(laws.begin(), laws.end(), [](const DrawnLaw& law) { return !law.points.empty(); });
  const bool tails =
      std::any_of(laws.begin(), laws.end(), [](const DrawnLaw& law) { return law.known_to_T; });
  return std::string(dots ? "dots: points of the table" : "") + (dots && tails ? "; " : "") +
         (tails ? "dashed: the tail to saturation, beyond what is known" : "");
}

}  // namespace

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

CurvesPicture law_picture(const std::string& title, const std::vector<DrawnLaw>& laws) {
  CurvesPicture picture{title, "flux density against field strength", "field strength H (A/m)",
                        "flux density B (T)"};
  picture.x_logarithmic = true;
  constexpr double weakest_A_per_m = 1;
  for (std::size_t i = 0; i < laws.size(); ++i) {
    const Colour colour = colour_of(i, laws.size());
    const double top = flux_density(laws[i].law, 1e6);
    add_curve(picture, laws[i], colour, top, [&](double b) {
      const double h = evaluate(laws[i].law, b).h;
      return CurvePoint{h, h < weakest_A_per_m ? std::nan("") : b};
    });
    for (const BhCurve::Point& point : laws[i].points)
      if (point.h_A_per_m > 0) picture.curves.back().marks.push_back({point.h_A_per_m, point.b_T, true});
  }
  picture.foot = foot_of(laws);
  return picture;
}

CurvesPicture permeability_picture(const std::string& title, const std::vector<DrawnLaw>& laws) {
  CurvesPicture picture{title, "relative permeability B / (mu0 H)", "flux density B (T)",
                        "relative permeability"};
  for (std::size_t i = 0; i < laws.size(); ++i) {
    const auto permeability = [&](double b) { return b / (mu0 * evaluate(laws[i].law, b).h); };
    add_curve(picture, laws[i], colour_of(i, laws.size()), flux_density(laws[i].law, 3e5), [&](double b) {
      return CurvePoint{b, permeability(b)};
    });
    for (const BhCurve::Point& point : laws[i].points)
      if (point.h_A_per_m > 0)
        picture.curves.back().marks.push_back({point.b_T, point.b_T / (mu0 * point.h_A_per_m), true});
  }
  picture.foot = foot_of(laws);
  return picture;
}

}  // namespace coilpull
