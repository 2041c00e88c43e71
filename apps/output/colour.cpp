// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/colour.hpp"

#include <algorithm>
#include <cmath>

#include "materials/constants.hpp"

namespace coilpull {
namespace {

double on_screen(double linear) {  // IEC 61966-2-1
  const double c = std::clamp(linear, 0.0, 1.0);
  return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1 / 2.4) - 0.055;
}

double cube(double x) { return x * x * x; }

double between(double a, double b, double t) { return a + (b - a) * t; }

}  // namespace

Colour perceived(double lightness, double chroma, double hue_degrees) {
  const double a = chroma * std::cos(hue_degrees * pi / 180), b = chroma * std::sin(hue_degrees * pi / 180);
  const double l = cube(lightness + 0.3963377774 * a + 0.2158037573 * b);
  const double m = cube(lightness - 0.1055613458 * a - 0.0638541728 * b);
  const double s = cube(lightness - 0.0894841775 * a - 1.2914855480 * b);
  return {on_screen(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
          on_screen(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
          on_screen(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s)};
}

Colour covering(Colour colour, double cover) {
  colour.cover = cover;
  return colour;
}

Colour on_amount_scale(double t) {
  t = std::clamp(t, 0.0, 1.0);
  const double chroma = 0.135 * std::pow(std::sin(pi / 2 * std::min(1.0, 0.06 + 1.25 * t)), 1.2);
  return perceived(between(0.995, 0.40, t), chroma, between(125, 268, std::pow(t, 0.75)));
}

Colour on_signed_scale(double t) {
  t = std::clamp(t, -1.0, 1.0);
  const double far = std::abs(t);
  if (far < 1e-9) return perceived(0.45, 0, 0);
  return t < 0 ? perceived(between(0.74, 0.42, far), between(0.09, 0.15, far), 255)
               : perceived(between(0.80, 0.60, far), between(0.11, 0.17, far), between(70, 48, far));
}

Colour on_order_scale(double t) {
  t = std::clamp(t, 0.0, 1.0);
  return perceived(between(0.34, 0.76, t), 0.12, between(275, 75, t));
}

}  // namespace coilpull
