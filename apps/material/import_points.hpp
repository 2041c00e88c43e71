// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "apps/input/bh_file.hpp"
#include "materials/fit_law.hpp"

namespace coilpull {

/// What a person says of points that are to become a material.
struct ImportChoice {
  std::string name, source;                                              ///< never empty
  std::string certainty = {}, condition = {}, beyond = {}, family = {};  ///< empty: left out of the file
  std::optional<double> saturation_polarization_T = {}, initial_permeability = {};
  bool smooth = false;
  std::string fit = {};  ///< closed law to be written instead of the points; empty: the points
};

/// A point before and after it was smoothed.
struct MovedPoint {
  BhFilePoint before;
  double b_T;  ///< after
};

struct ImportedMaterial {
  std::vector<BhCurve::Point> points;  ///< as they are used
  LawNumbers numbers;                  ///< as they are written
  SoftLaw law;
  std::vector<MovedPoint> moved = {};  ///< every point of the file, when it was smoothed
  std::optional<LawFit> fit = {};      ///< of the points
  std::vector<std::string> notes = {};
};

/// Points, or a closed law through them, checked and smoothed as chosen.
/// @throws BadCsv  see read_bh_file; refuse_faults unless smoothed    @throws BadMaterial  see make_law,
/// fit_law
ImportedMaterial import_points(const CsvFile& file, const ImportChoice& choice);

/// The catalogue file of it (TOML).
std::string material_file_text(const ImportedMaterial& material, const ImportChoice& choice);

/// What was done, with residuals and how far each point moved; for the screen.
std::string import_text(const ImportedMaterial& material);

}  // namespace coilpull
