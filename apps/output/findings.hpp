// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "solver/sweep/force_table.hpp"

namespace coilpull {

// What a person acts on, read out of a finished table. Rows without a usable force are passed over.

const Measurement* strongest_push(const ForceTable& table);  ///< largest force > 0; null: there is none
const Measurement* strongest_pull(const ForceTable& table);  ///< most negative force < 0; null: none
const Measurement* strongest_current_off(
    const ForceTable& table);  ///< largest |force| with every current 0; or null

/// What the largest currents of one circuit do to the force, the other circuits off, at the displacement
/// where they do most.
struct CurrentEffect {
  std::size_t circuit;
  const Measurement* off;       ///< the row with the current off; null: the table has none
  const Measurement* positive;  ///< with the largest positive current; null: none
  const Measurement* negative;  ///< with the most negative current; null: none
};

/// Nothing when the table has fewer than two currents to compare.
std::optional<CurrentEffect> largest_effect(const ForceTable& table, std::size_t circuit);

/// Audited rows whose force or a flux linkage misses the energy by more than bars and audit leave open.
std::vector<const AuditedRow*> audit_misses(const ForceTable& table);

/// Audited rows in which the audit is less sure of force or linkage than the row's own bar: it would not see
/// a bar that is a little too narrow.
std::size_t unsure_audits(const ForceTable& table);

/// The audited row with the widest mismatch; null: nothing was audited.
const AuditedRow* worst_audited(const ForceTable& table);

/// Displacements of the table; 0 when it has no rows.
std::size_t displacement_count(const ForceTable& table);

}  // namespace coilpull
