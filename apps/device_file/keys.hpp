// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "apps/device_file/table.hpp"

namespace coilpull {

// Units live in the key: "inner_radius_mm = 6.0" -> 0.006. The only place where a unit is read. Decimal units
// are divided, not multiplied by a rounded 0.001: 7 mm is the double nearest to 0.007.

/// Rows of a table at most; a list alone cannot be longer.
inline constexpr std::size_t most_rows = 1000000;

struct Unit;

/// A number in SI units, and how the person wrote it.
struct Quantity {
  double si;
  Value value;
  double written = si;         ///< in the unit of the key
  const Unit* unit = nullptr;  ///< of the key
};

/// Numbers in SI units, in the order written.
struct Quantities {
  std::vector<double> si;  ///< never empty
  Value value;
};

// find_...: none when the key is not there. Without find_: throws BadDevice then, with this advice.
// All throw BadDevice when the number is not one, is not finite, or is given twice in different units.

/// stem_mm, stem_m or stem_in [m]
std::optional<Quantity> find_length_m(const Table& table, const std::string& stem);
Quantity length_m(const Table& table, const std::string& stem, const std::string& advice);

struct Ends {
  double from, to;
};

/// centre -+ length / 2 [m], computed in the unit of the keys when it is the same, so that ends meet those of
/// other parts to the last bit.
Ends ends_about(const Quantity& centre, const Quantity& length);

/// <prefix>radius_mm, _m, _in, or half of <prefix>diameter_mm, _m, _in [m]
std::optional<Quantity> find_radius_m(const Table& table, const std::string& prefix);
Quantity radius_m(const Table& table, const std::string& prefix, const std::string& advice);

/// stem_mm, stem_m or stem_in: a number, a list [0, 2, 5] or { from, to, points } with from < to [m]
std::optional<Quantities> find_lengths_m(const Table& table, const std::string& stem);

/// stem_A or stem_mA: likewise [A]
std::optional<Quantities> find_currents_A(const Table& table, const std::string& stem);

/// stem_T, stem_mT or stem_G (gauss, 1e-4 T) [T]
std::optional<Quantity> find_flux_density_T(const Table& table, const std::string& stem);
Quantity flux_density_T(const Table& table, const std::string& stem, const std::string& advice);

/// stem_T, stem_mT or stem_G: one number, or what a sheet states, { min = 2, typical = 3, max = 4 } [T]
struct QuotedRange {
  double least, typical, most;
  Value value;
};
std::optional<QuotedRange> find_flux_density_range_T(const Table& table, const std::string& stem);

/// A number whose unit only this key has. @throws BadDevice  outside least ... most, with this advice
std::optional<double> find_between(const Table& table, const std::string& key, double least, double most,
                                   const std::string& advice = "");

/// @throws BadDevice  when a number stands twice
void refuse_repeated(const Quantities& numbers);

}  // namespace coilpull
