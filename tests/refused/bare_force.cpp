// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/measure/measurement.hpp"

#ifdef BAD
coilpull::Measured force_N = 3.2;  // refused
#else
coilpull::Measured force_N = {3.2, 0.1};
#endif
