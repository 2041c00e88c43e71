// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "materials/magnetic_law.hpp"

namespace coilpull {

struct ListedLaw {
  std::string name;
  SoftLaw law;
  /// J(H) as printed in the literature, in long double; empty for laws that are given as H(B).
  std::function<long double(long double)> polarization;
};

/// One or more of every kind, and every steel of the catalogue; a new law is tested by being listed here.
std::vector<ListedLaw> every_law();

/// The laws of the published scalar cases, by the name in their first column; the table of TEAM 13 is not one
/// of them.
std::vector<ListedLaw> laws_of_published_cases();

/// Points of the B-H table of TEAM problem 13 as printed, without the formula beyond 1.8 T.
std::vector<BhCurve::Point> team13_points();

}  // namespace coilpull
