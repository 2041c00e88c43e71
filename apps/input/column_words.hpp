// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace coilpull {

/// What a column of a person's file holds.
enum class ColumnKind { nothing, displacement, current, force, field, inductance };

/// A header as it was understood.
struct ColumnWords {
  ColumnKind kind = ColumnKind::nothing;
  bool uncertainty = false;  ///< the standard uncertainty of such a quantity, not the quantity
  std::string unit = {};     ///< as in units_of(); empty: none is named
  double in_si = 1;          ///< number * in_si is in m, A, N, T or H
  std::string of = {};       ///< the words left, small letters, joined by "_": the circuit or sensor meant
};

/// Reads "displacement_mm", "Force [mN]", "F/N", "current drive (mA)", "force in gram-force", "B_z_exit_T",
/// "inductance_drive_mH", "force_uncertainty_N". The first word names the quantity, the last word that is a
/// unit of it names the unit. Forces on a scale: gf and kgf (also g and kg) weigh 9.80665 m/s^2, the standard
/// value of BIPM, The International System of Units, 9th ed. 2019, section 5.4 (3rd CGPM, 1901).
ColumnWords column_words(const std::string& header);

/// Letters and digits between all other signs, with the capitals that tell mA from MA; "gram-force" is one
/// word, gf.
std::vector<std::string> words_of_header(std::string header);

/// "N, mN, kN, gf, kgf, lbf": what may be written for it.
std::string units_of(ColumnKind kind);

}  // namespace coilpull
