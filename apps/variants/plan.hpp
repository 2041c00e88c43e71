// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "apps/device_file/read_device_file.hpp"
#include "apps/output/origin.hpp"
#include "apps/variants/figures.hpp"
#include "apps/variants/variants_file.hpp"

namespace coilpull {

/// One device of the plan.
struct Variant {
  std::size_t number;                 ///< from 1
  std::size_t design;                 ///< from 1; variants that differ by their tolerances only share it
  std::vector<std::string> values;    ///< TOML, one for each of VariantPlan::paths
  std::string canonical = {};         ///< the complete device as canonical text; empty: it is none
  std::string key = {};               ///< of its table: a hash of all that matters to it
  std::string stroke_key = {};        ///< of its stroke, likewise; empty: none is wanted
  std::filesystem::path folder = {};  ///< where the paths to material files in it start
  Figures pulse = {};                 ///< see pulse_figures: part of no key
  std::string refusal = {};           ///< why it is no device; empty: it is one
};

/// Every variant, in an order that the file alone decides.
struct VariantPlan {
  std::vector<std::string> paths;  ///< of what varies, followers included
  std::vector<bool> strays;        ///< by path: drawn by [tolerances], not chosen
  std::vector<Variant> variants;
  Origin drawn = {};                      ///< the device as it is in the file, with [set]
  std::vector<InputFile> materials = {};  ///< every material file that some variant names
};

/// Crosses [vary], [[together]], [hypercube] and [tolerances], in this order, the first slowest. Draws are
/// given six digits, so that they are the same everywhere. A variant that is no device (turns that do not
/// fit, a bore wider than its tube) stays in the plan with its refusal.
///
/// The key is the SHA-256 of the program's version, the canonical text without title, [spread] and how the
/// device is used ([supply], [duty], [mechanics], what switches), and the bytes of every material file that
/// the device names, also through the catalogue. The stroke's is that of the key, the use and [stroke].
/// @throws BadDevice  when the device cannot be used as it is in the file, nor run a stroke that is wanted,
/// or
///                    a number that strays or leads is none
VariantPlan plan_variants(const VariantsFile& file);

/// The device of a variant that is one, its places without lines: it stands in no file.
DeviceFile device_of(const Variant& variant);

/// A design of the plan with other numbers: what follows them follows, the rest stays; no strays.
/// @param numbers  by path, in the units of the keys; given six digits
Variant changed_design(const VariantsFile& file, const VariantPlan& plan, const Variant& design,
                       const std::map<std::string, double>& numbers);

}  // namespace coilpull
