// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace coilpull::detail {

/// The value itself when it is finite and > bound. @throws BadMaterial naming key, value and what is allowed.
double require_above(double bound, const std::string& key, double value);

/// The value itself when it is finite and >= bound. @throws BadMaterial naming key, value and what is
/// allowed.
double require_at_least(double bound, const std::string& key, double value);

/// The value itself when it is <= bound. @throws BadMaterial naming key, value, what is allowed and the
/// reason.
double require_at_most(double bound, const std::string& key, double value, const std::string& reason);

}  // namespace coilpull::detail
