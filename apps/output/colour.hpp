// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace coilpull {

/// A colour of the screen, 0 to 1 (sRGB), and how much of the ground it covers.
struct Colour {
  double red, green, blue;
  double cover = 1;
};

/// By perceived lightness (0 black, 1 white), chroma and hue: OKLab in polar form, Ottosson 2020,
/// "A perceptual color space for image processing" (coefficients from memory). Clipped to what a screen can
/// show.
Colour perceived(double lightness, double chroma, double hue_degrees);

Colour covering(Colour colour, double cover);

/// For a quantity from 0 to its largest, t = 0 to 1: from the white of the paper over pale green to deep
/// blue. Lightness falls evenly with t, so that the order shows without colour vision and in print.
Colour on_amount_scale(double t);

/// For a quantity of either sign, t = -1 to 1: blue, grey at 0, orange. These two differ for every colour
/// vision.
Colour on_signed_scale(double t);

/// For curves in an order that has no zero, t = 0 to 1: dark blue, green, light ochre; lightness rises
/// evenly.
Colour on_order_scale(double t);

}  // namespace coilpull
