// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/material.hpp"

#include <algorithm>
#include <iostream>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/output/bh_picture.hpp"
#include "apps/output/magnet_picture.hpp"
#include "apps/output/material_text.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/picture_files.hpp"
#include "apps/output/safe_file.hpp"
#include "materials/bad_material.hpp"
#include "materials/bolt.hpp"
#include "materials/catalogue.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

bool has(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// What NAME stands for: one steel, the two of a pair, or a magnet.
struct Shown {
  std::vector<SoftMaterial> steels;
  std::optional<MagnetMaterial> magnet = {};
};

Shown from_file(const std::string& name) {
  try {
    return {{read_steel(name)}};
  } catch (const BadMaterial&) {
    try {
      return {{}, read_magnet(name)};
    } catch (const BadMaterial&) {
    }
    throw;  // what is wrong with it as a steel
  }
}

Shown look_up(const std::string& name) {
  if (name.find('/') != std::string::npos || fs::path(name).extension() == ".toml") return from_file(name);
  const Catalogue catalogue = standard_catalogue();
  if (has(catalogue.pair_names(), name)) {
    const Bracket both = catalogue.bracket(name);
    return {{*both.weak, *both.strong}};
  }
  try {
    return {{}, catalogue.magnet(name)};
  } catch (const BadMaterial&) {
    return {{catalogue.steel(name)}};
  }
}

DrawnLaw drawn(const SoftMaterial& steel) {
  DrawnLaw law{steel.name, steel.law, {}, {}};
  if (const auto* curve = std::get_if<BhCurve>(&steel.law)) {
    law.points = curve->points();
    law.known_to_T = curve->last_b();
  } else if (steel.range_to_A_per_m) {
    law.known_to_T = flux_density(steel.law, *steel.range_to_A_per_m);
  }
  return law;
}

std::vector<BhCurve::Point> points_of(const SoftMaterial& steel) {
  if (const auto* curve = std::get_if<BhCurve>(&steel.law)) return curve->points();
  throw BadMaterial("law", "\"" + steel.name + "\" has no points to fit a law to: it is a law itself");
}

std::string file_stem(std::string name) {
  for (char& c : name)
    if (c == ' ' || c == ',' || c == '/' || c == '.') c = '_';
  return name;
}

/// @param stem  of all: see write_manifest
void write_pictures(const std::vector<std::pair<std::string, CurvesPicture>>& pictures,
                    const fs::path& folder, const std::string& stem, const RunOrigin& run) {
  std::vector<fs::path> written;
  for (const auto& [name, picture] : pictures)
    for (const fs::path& file : write_picture(draw(picture), folder, name, picture.title))
      written.push_back(file);
  write_manifest(folder, stem, run, written);
  std::cout << "\n" << written_text(written);
}

}  // namespace

ExitCode run_material_list() {
  std::cout << catalogue_text(standard_catalogue());
  return exit_good;
}

ExitCode run_material_show(const MaterialShowOptions& options) {
  const Shown shown = look_up(options.name);
  if (shown.magnet) std::cout << magnet_material_text(*shown.magnet);
  std::vector<DrawnLaw> laws;
  for (const SoftMaterial& steel : shown.steels) {
    std::cout << soft_material_text(steel) << (shown.steels.size() > 1 ? "\n" : "");
    laws.push_back(drawn(steel));
    if (options.fit.empty()) continue;
    ImportedMaterial with_fit{points_of(steel), {}, steel.law};
    with_fit.fit = fit_law(options.fit, with_fit.points);
    std::cout << import_text(with_fit);
    laws.push_back({options.fit, with_fit.fit->law, {}, {}});
  }
  if (!options.files) return exit_good;
  const std::string stem = file_stem(fs::path(options.name).stem().string());
  const fs::path folder = results_folder(stem, options.folder);
  RunOrigin run{options.command};
  for (const SoftMaterial& steel : shown.steels) run.files.push_back(input_file(steel));
  if (shown.magnet) run.files.push_back(input_file(*shown.magnet));
  if (shown.magnet)
    write_pictures({{stem + "_recoil", magnet_picture(*shown.magnet)}}, folder, stem, run);
  else
    write_pictures({{stem + "_bh", law_picture(options.name, laws)},
                    {stem + "_permeability", permeability_picture(options.name, laws)}},
                   folder, stem, run);
  return exit_good;
}

ExitCode run_material_import(MaterialImportOptions options) {
  const std::string stem = options.points_file.stem().string();
  if (options.choice.name.empty()) options.choice.name = stem;
  if (options.material_file.empty()) options.material_file = stem + ".toml";
  if (!options.choice.certainty.empty()) evidence_of(options.choice.certainty);  // refuses other words
  const CsvFile points = read_csv_file(options.points_file);
  const ImportedMaterial material = import_points(points, options.choice);
  std::cout << import_text(material);
  write_safely(options.material_file, material_file_text(material, options.choice));
  std::vector<fs::path> written = {options.material_file};
  write_manifest(options.material_file.parent_path(), options.material_file.filename().string(),
                 {options.command, {}, {input_file(points.name, points.sha256)}}, written);
  std::cout << written_text(written) << "Use it in a device file: material = \""
            << options.material_file.string() << "\"\n";
  return exit_good;
}

ExitCode run_material_bolt(const BoltOptions& options) {
  std::cout
      << "Draw the thread as a cylinder of diameter "
      << rounded(1e3 * threaded_rod_diameter(1e-3 * options.diameter_mm, 1e-3 * options.pitch_mm), 4)
      << " mm: the mean section of the basic profile of ISO 68-1 (profile from memory, mean computed).\n";
  if (options.across_flats_mm)
    std::cout << "Draw the hexagon as a cylinder of diameter "
              << rounded(1e3 * hexagon_head_diameter(1e-3 * *options.across_flats_mm), 4)
              << " mm: the same section.\n";
  std::cout << "A shank without thread has its own diameter. That a body of equal section carries equal flux "
               "is common\n"
               "practice without a source; at a pole face the thread's edges make the field rougher than the "
               "drawing.\n"
               "Of hardened bolts only two bounds are known: compare both, and ask remanence what stays.\n";
  return exit_good;
}

}  // namespace coilpull
