// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/device/device.hpp"

using namespace coilpull;

const Outline outline = rectangle(0, 0.004, 0, 0.01);
#ifdef BAD
const Core core = {"rod", outline, MagnetLaw{0, 1.2, 1.05}, "1.2 T"};  // refused
#else
const Magnet core = {"rod", outline, MagnetLaw{0, 1.2, 1.05}, "1.2 T"};
#endif
