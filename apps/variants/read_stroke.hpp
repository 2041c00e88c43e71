// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "apps/device_file/table.hpp"
#include "apps/variants/variants_file.hpp"

namespace coilpull {

/// [stroke]  the options of `coilpull stroke` as keys, with their defaults: circuit, start_mm, speed_m_per_s,
/// sense, on_mm, off_mm, off_after_ms, on_by, off_by, reverse_until_mm, delay_us, cut_off_ms, energy_return,
/// until_ms, stages, pitch_mm, best; lengths also in _m or _in. Nothing: the file has no such table. @throws
/// BadDevice
std::optional<StrokeWish> read_stroke(const Table& root);

/// All of it in one text, defaults written out: two that mean the same stroke are the same.
std::string exact_text(const StrokeWish& wish);

}  // namespace coilpull
