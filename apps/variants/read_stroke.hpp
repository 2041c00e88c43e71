// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "apps/device_file/read_device_file.hpp"
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

/// Options in a sentence as the keys of [stroke]: "--on-mm" -> "on_mm".
std::string as_stroke_keys(const std::string& sentence);

/// At the key of [stroke] that is wrong, or at what asks for the stroke.
/// @throws BadDevice  the device cannot run it, see stroke_fault
void refuse_without_stroke(const DeviceFile& device, const StrokeWish& wish);

}  // namespace coilpull
