// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/material_verbs.hpp"

#include <memory>

#include "apps/commands/first_help.hpp"
#include "apps/commands/material.hpp"
#include "apps/verb_options.hpp"

namespace coilpull {
namespace {

void add_material_show(CLI::App& material, ExitCode& code) {
  const auto show = std::make_shared<MaterialShowOptions>();
  CLI::App* show_verb = material.add_subcommand("show", "all that is known of one, with charts");
  show_verb->add_option("NAME", show->name, "name in the catalogue, or a path to a material file")
      ->required();
  show_verb->add_option("-o", show->folder, "folder for the charts; default: <name>_out");
  show_verb->add_flag("!--no-files", show->files, "print only");
  show_verb->add_option("--fit", show->fit, "lay a closed law through its points, with residuals");
  show_verb->callback([=, &code] {
    show->command = command_of(*show_verb);
    code = run_material_show(*show);
  });
}

void add_material_bolt(CLI::App& material, ExitCode& code) {
  const auto bolt = std::make_shared<BoltOptions>();
  CLI::App* bolt_verb = material.add_subcommand("bolt", "cylinders that stand for a thread and a head");
  bolt_verb->add_option("--diameter-mm", bolt->diameter_mm, "nominal diameter of the thread")->required();
  bolt_verb->add_option("--pitch-mm", bolt->pitch_mm, "of the thread")->required();
  bolt_verb->add_option("--across-flats-mm", bolt->across_flats_mm, "of a hexagon head; default: none");
  bolt_verb->callback([=, &code] { code = run_material_bolt(*bolt); });
}

void add_material_import(CLI::App& material, ExitCode& code) {
  const auto import = std::make_shared<MaterialImportOptions>();
  CLI::App* import_verb = material.add_subcommand("import", "points of a B-H curve (CSV) to a material file");
  import_verb->add_option("POINTS", import->points_file, "H and B, or H and J, with units in the header")
      ->required();
  import_verb->add_option("--source", import->choice.source, "who measured or published the points")
      ->required();
  import_verb->add_option("-o", import->material_file, "material file; default: <stem of POINTS>.toml");
  import_verb->add_option("--name", import->choice.name, "default: the stem of POINTS");
  import_verb->add_option("--family", import->choice.family, "for example mild steel");
  import_verb->add_option(
      "--certainty", import->choice.certainty,
      "read, recomputed, memory, estimate or invented; a colon and the reason may follow");
  import_verb->add_option("--condition", import->choice.condition,
                          "for what state it holds: annealed, 20 degC");
  import_verb->add_option("--beyond", import->choice.beyond, "what it must not be used for");
  import_verb->add_option("--saturation-T", import->choice.saturation_polarization_T,
                          "J that the tail tends to");
  import_verb->add_option("--initial-permeability", import->choice.initial_permeability,
                          "relative; a Rayleigh parabola then leads to the first point");
  import_verb->add_flag("--smooth", import->choice.smooth, "bring noisy points into the shape of a curve");
  import_verb->add_option("--fit", import->choice.fit, "write a closed law through the points instead")
      ->check(CLI::IsMember(laws_to_fit()));
  import_verb->callback([=, &code] {
    import->command = command_of(*import_verb);
    code = run_material_import(*import);
  });
}

}  // namespace

void add_material(CLI::App& app, ExitCode& code) {
  CLI::App* material = app.add_subcommand("material", "steels and magnets: list, show, import points");
  material->require_subcommand(1);
  material->footer(material_help);
  material->add_subcommand("list", "the catalogue, a line a material")->callback([&code] {
    code = run_material_list();
  });
  add_material_show(*material, code);
  add_material_bolt(*material, code);
  add_material_import(*material, code);
}

}  // namespace coilpull
