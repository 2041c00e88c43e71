// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/random_devices/drawn_device.hpp"

#include <cstdio>

#include "tests/physics/dice.hpp"

namespace coilpull {
namespace {

std::string number(double value) {
  char words[40];
  std::snprintf(words, sizeof words, "%.9e", value);
  return words;
}

std::string tube(double inner, double outer, double from, double to) {
  const std::string ends = "from_m = " + number(from) + ", to_m = " + number(to) + " }\n";
  if (inner == 0) return "cylinder = { radius_m = " + number(outer) + ", " + ends;
  return "tube = { inner_radius_m = " + number(inner) + ", outer_radius_m = " + number(outer) + ", " + ends;
}

/// A body on the axis with one rounded end.
std::string rounded(double radius, double from, double to, double fillet) {
  return "profile = [ { r_m = 0, z_m = " + number(from) + " }, { r_m = " + number(radius) +
         ", z_m = " + number(from) + ", fillet_m = " + number(fillet) + " }, { r_m = " + number(radius) +
         ", z_m = " + number(to) + " }, { r_m = 0, z_m = " + number(to) + " } ]\n";
}

std::string law(Dice& dice) {
  const double js = dice.between(0.4, 2.4);
  switch (dice.one_of(5)) {
    case 0:
      return "material = { law = \"froehlich\", saturation_polarization_T = " + number(js) +
             ", half_field_A_per_m = " + number(dice.log_between(30, 5000)) + " }\n";
    case 1:
      return "material = { h_A_per_m = [0, 100, 200, 400, 1000, 5000, 20000, 80000], "
             "b_T = [0, 0.1, 0.5, 1.0, 1.35, 1.65, 1.95, 2.2] }\n";
    case 2:
      return "material = \"demo soft steel\"\n";
    case 3:
      return "material = \"team 13 steel\"\n";
    default:
      return "material = { law = \"linear\", mu_r = " + number(dice.log_between(2, 5000)) + " }\n";
  }
}

/// One change that a slip of the hand could make; some leave a valid device, most do not.
std::string with_one_mistake(std::string text, Dice& dice) {
  const auto replace = [&](const std::string& what, const std::string& by) {
    const std::size_t at = text.find(what);
    if (at != std::string::npos) text.replace(at, what.size(), by);
  };
  switch (dice.one_of(12)) {
    case 0:
      replace("turns = ", "turns = -");
      break;
    case 1:
      replace("radius_m", "radius_mm");
      break;
    case 2:
      replace("from_m", "to_m");
      break;
    case 3:
      replace("to_m = ", "to_m = -");
      break;
    case 4:
      replace("e-0", "e+0");
      break;
    case 5:
      replace("recoil_permeability = 1", "recoil_permeability = 0");
      break;
    case 6:
      replace("moving = [", "moving = [\"post\", ");
      break;
    case 7:
      replace("r_m = ", "r_m = 1e-7");
      break;
    case 8:
      replace("1.", "1.000000001");
      break;
    case 9:
      replace("tolerance = 0.01", "tolerance = 1e-9");
      break;
    case 10:
      replace("inner_radius_m = ", "inner_radius_m = 1e-12");
      break;
    default:
      text.erase(text.size() * static_cast<std::size_t>(dice.one_of(100)) / 100, 1);
  }
  return text;
}

}  // namespace

const char* word_for(Trait trait) {
  static const char* const words[] = {"arcs",       "touching parts", "slivers",          "moving steel",
                                      "slanted Br", "hair gap",       "strong",           "tiny",
                                      "huge",       "no current",     "enormous current", "nearly valid"};
  return words[static_cast<std::size_t>(trait)];
}

DrawnDevice drawn_device(unsigned seed) {
  Dice dice(seed);
  DrawnDevice drawn;
  const auto draw = [&](Trait trait, double share) {
    return drawn.has[static_cast<std::size_t>(trait)] = dice.chance(share);
  };
  const bool arcs = draw(Trait::arcs, 0.3), touching = draw(Trait::touching, 0.4),
             sliver = draw(Trait::sliver, 0.15);
  const bool moving_steel = draw(Trait::moving_steel, 0.35),
             slanted = draw(Trait::slanted, 0.2) && !moving_steel;
  drawn.has[static_cast<std::size_t>(Trait::slanted)] = slanted;
  const bool hair = draw(Trait::hair_gap, 0.2), strong = draw(Trait::strong, 0.25);
  const bool tiny = draw(Trait::tiny, 0.12), huge = draw(Trait::huge, 0.14) && !tiny;
  drawn.has[static_cast<std::size_t>(Trait::huge)] = huge;
  const bool none = draw(Trait::no_current, 0.12), enormous = draw(Trait::enormous_current, 0.14) && !none;
  drawn.has[static_cast<std::size_t>(Trait::enormous_current)] = enormous;
  const bool nearly = draw(Trait::nearly_valid, 0.2);

  const double size = tiny   ? dice.log_between(1e-4, 1e-3)
                      : huge ? dice.log_between(1, 10)
                             : dice.log_between(2e-3, 0.2);
  const double gap = size * (hair ? dice.log_between(2e-5, 8e-4) : dice.log_between(0.02, 0.3));
  const double radius = size * dice.between(0.2, 0.5), length = size * dice.between(0.4, 1.6);
  const double wall = size * (sliver ? dice.log_between(1e-3, 9e-3) : dice.between(0.08, 0.3));
  const double turns = std::floor(dice.between(20, 800));
  const double inner = radius + size * dice.between(0.01, 0.1), outer = inner + size * dice.between(0.1, 0.4);

  std::string& text = drawn.toml;
  text = "title = \"drawn " + std::to_string(seed) + "\"\ntolerance = 0.01\n";
  text += "[core.post]\n" + law(dice) + tube(0, radius, 0, length);
  text += "[coil.drive]\nturns = " + number(turns) + "\n" + tube(inner, outer, 0.05 * length, 0.95 * length);
  if (touching) text += "[core.plate]\n" + law(dice) + tube(0, outer + 0.1 * size, -wall, 0);
  if (touching && dice.chance(0.6))
    text += "[core.pot]\n" + law(dice) + tube(outer + 0.02 * size, outer + 0.1 * size, 0, length);
  if (sliver && !touching)
    text += "[core.shell]\n" + law(dice) + tube(outer + 0.05 * size, outer + 0.05 * size + wall, 0, length);
  const double from = length + gap, thick = size * dice.between(0.1, 0.5),
               disc = size * dice.between(0.15, 0.7);
  std::string shape;
  if (slanted)
    shape = tube(0.3 * disc, disc, from, from + thick);
  else if (arcs && dice.chance(0.4))
    shape =
        "ball = { radius_m = " + number(0.5 * thick) + ", centre_m = " + number(from + 0.5 * thick) + " }\n";
  else if (arcs)
    shape = rounded(disc, from, from + thick, std::min(disc, thick) * dice.between(0.05, 0.9));
  else
    shape = tube(0, disc, from, from + thick);
  if (moving_steel)
    text += "[core.mover]\n" + law(dice) + shape;
  else
    text += "[magnet.mover]\nmaterial = { remanence_T = " + number(dice.between(0.2, 1.4)) +
            ", recoil_permeability = " + number(dice.between(1.0, 1.2)) + " }\nmagnetised = " +
            (slanted            ? "{ angle_deg = " + number(dice.between(-180, 180)) + " }"
             : dice.chance(0.5) ? "\"+z\""
                                : "\"-z\"") +
            "\n" + shape;
  const double most = enormous ? dice.log_between(1e6, 1e12)
                      : none   ? 0
                               : (strong ? dice.between(3, 8) : dice.log_between(0.01, 1)) * length /
                                   (4e-7 * 3.14159265 * turns);
  text += "[motion]\nmoving = [\"mover\"]\ndisplacement_m = [0, " + number(size * dice.between(0.05, 0.5)) +
          "]\n";
  text += "[current]\ndrive_A = " + (none ? "[0]" : "[" + number(-most) + ", " + number(most) + "]") + "\n";
  if (nearly) text = with_one_mistake(text, dice);
  return drawn;
}

}  // namespace coilpull
