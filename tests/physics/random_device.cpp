// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/physics/random_device.hpp"

#include <cmath>

#include "materials/constants.hpp"
#include "tests/physics/devices.hpp"
#include "tests/physics/dice.hpp"

namespace coilpull {
namespace {

SoftLaw random_law(Dice& dice) {
  const double js = dice.between(0.4, 2.4), chi = dice.log_between(50, 2e4);
  switch (dice.one_of(6)) {
    case 0:
      return LinearLaw{dice.log_between(2, 5000)};
    case 1:
      return FroehlichLaw{js, js / (chi * mu0)};
    case 2:
      return BrauerLaw{dice.between(0.1, 5), dice.between(1.5, 3), dice.log_between(50, 500)};
    case 3:
      return LangevinLaw{js, js / (3 * chi * mu0)};
    case 4:
      return ArctangentLaw{js, chi};
    default:
      return BhCurve({{0, 0},
                      {100, 0.1},
                      {200, 0.5},
                      {400, 1.0},
                      {1000, 1.35},
                      {5000, 1.65},
                      {20000, 1.95},
                      {80000, 2.2}});
  }
}

}  // namespace

RandomDevice random_device(unsigned seed) {
  Dice dice(seed);
  RandomDevice random{};
  Device& device = random.device;
  device.title = "random device";
  const double size = dice.log_between(2e-3, 0.2);
  random.hair_gap = dice.chance(0.2);
  random.touching = dice.chance(0.35);
  random.strong = dice.chance(0.3);
  const double gap = size * (random.hair_gap ? dice.log_between(1e-4, 8e-4) : dice.log_between(0.02, 0.4));
  const double br = dice.between(0.2, 1.4) * (dice.chance(0.5) ? 1 : -1), mu = dice.between(1.0, 1.2);
  const double radius = size * dice.between(0.2, 0.6), length = size * dice.between(0.4, 2),
               wall = size * dice.between(0.08, 0.4);
  const double turns = std::floor(dice.between(20, 800));
  double top = 0;  // upper end of what stands still around the axis

  if (dice.chance(0.5)) {  // a tube core in its winding, a rod passing through the bore
    device.cores.push_back(
        core("tube", rectangle(radius + gap, radius + gap + wall, 0, length), random_law(dice)));
    const double inner = radius + gap + wall + (random.touching ? 0 : size * dice.between(0.01, 0.1));
    device.coils.push_back(coil(
        "coil", rectangle(inner, inner + size * dice.between(0.1, 0.5), 0.1 * length, 0.8 * length), turns));
    const double rod = size * dice.between(0.2, 1.2), from = length * dice.between(-0.6, 0.9);
    if (dice.chance(0.3)) {
      device.cores.push_back(core("rod", rectangle(0, radius, from, from + rod), random_law(dice)));
      device.moving = {"rod"};
    } else {
      device.magnets.push_back(magnet("rod", rectangle(0, radius, from, from + rod), 0, br, mu));
      device.moving = {"rod"};
      if (dice.chance(0.3)) {  // a steel cap glued onto the magnet
        device.cores.push_back(core("cap",
                                    rectangle(0, radius * dice.between(0.5, 1), from + rod, from + rod * 1.3),
                                    random_law(dice)));
        device.moving.push_back("cap");
        random.touching = true;
      }
    }
  } else {  // a solid core in its winding, a disc above it
    device.cores.push_back(core("rod", rectangle(0, radius, 0, length), random_law(dice)));
    const double inner = radius + size * dice.between(0.01, 0.1);
    device.coils.push_back(
        coil("coil", rectangle(inner, inner + size * dice.between(0.1, 0.5), 0.05 * length, 0.95 * length),
             turns));
    if (random.touching)
      device.cores.push_back(core("plate", rectangle(0, inner + size * 0.3, -wall, 0), random_law(dice)));
    top = length;
    const double thick = size * dice.between(0.1, 0.5), disc = size * dice.between(0.2, 1.0);
    if (dice.chance(0.25)) {  // a ring magnetised along its radius
      device.magnets.push_back(
          magnet("disc", rectangle(0.3 * disc, disc, top + gap, top + gap + thick), br, 0, mu));
    } else {
      device.magnets.push_back(magnet("disc", rectangle(0, disc, top + gap, top + gap + thick), 0, br, mu));
    }
    device.moving = {"disc"};
    if (dice.chance(0.4)) {
      device.cores.push_back(core(
          "keeper",
          rectangle(0.3 * disc, disc * dice.between(0.6, 1.2), top + gap + thick, top + gap + thick + wall),
          random_law(dice)));
      device.moving.push_back("keeper");
      random.touching = true;
    }
  }
  for (const Core& one : device.cores) random.moving_steel |= is_moving(device, one.name);
  if (dice.chance(0.2)) device.background_bz_T = dice.between(-0.3, 0.3);
  device.displacements = {0};
  device.circuits = {"coil"};
  const double most =
      (random.strong ? dice.between(3, 8) : dice.log_between(0.01, 1)) * length / (mu0 * turns);
  device.currents_A = {{-most}, {0}, {most}};
  return random;
}

}  // namespace coilpull
