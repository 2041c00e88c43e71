// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/magnet_picture.hpp"

#include <algorithm>
#include <vector>

#include "apps/output/number_text.hpp"
#include "materials/constants.hpp"

namespace coilpull {

CurvesPicture magnet_picture(const MagnetMaterial& magnet) {
  CurvesPicture picture{magnet.name, "flux density along the magnetisation on the straight recoil line",
                        "field strength H (kA/m)", "flux density B (T)"};
  std::vector<double> temperatures = {20};
  if (magnet.max_temperature_degC && *magnet.max_temperature_degC > 20 && magnet.remanence_coefficient_per_K)
    temperatures.push_back(*magnet.max_temperature_degC);
  for (std::size_t i = 0; i < temperatures.size(); ++i) {
    const RecoilLine line = recoil_line_at(magnet, temperatures[i]);
    const double slope = mu0 * line.recoil_permeability;
    const auto spot = [&](double b) { return CurvePoint{1e-3 * (b - line.remanence_T) / slope, b}; };
    const double knee = line.knee_T.value_or(0), lowest = std::min(0.0, knee) - 0.1;
    const Colour colour = on_signed_scale(i == 0 ? -0.9 : 0.9);
    Curve good{rounded(temperatures[i], 4) + " degC", colour, {spot(knee), spot(line.remanence_T)}};
    if (line.knee_T) good.marks.push_back({spot(knee).x, knee, true});
    Curve lost{"", colour, {spot(lowest), spot(knee)}};
    lost.dashed = true;
    picture.curves.push_back(std::move(good));
    if (line.knee_T) picture.curves.push_back(std::move(lost));
  }
  picture.foot = magnet.intrinsic_coercivity_A_per_m && magnet.squareness
                     ? "dot: the knee; below it (dashed) the magnet loses remanence for good"
                     : "the knee is not known";
  return picture;
}

}  // namespace coilpull
