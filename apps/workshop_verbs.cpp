// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/workshop_verbs.hpp"

#include <memory>

#include "apps/commands/advise.hpp"
#include "apps/commands/drawing.hpp"
#include "apps/commands/export.hpp"
#include "apps/commands/first_help.hpp"
#include "apps/commands/offset.hpp"
#include "apps/commands/report.hpp"
#include "apps/verb_options.hpp"

namespace coilpull {
namespace {

void add_drawing(CLI::App& app, ExitCode& code) {
  const auto drawing = std::make_shared<DrawingOptions>();
  CLI::App* drawing_verb =
      app.add_subcommand("drawing", "the device in natural size on paper, with its parts");
  add_device_file(*drawing_verb, drawing->device_file);
  add_results_folder(*drawing_verb, drawing->folder);
  drawing_verb->add_option("--spare-percent", drawing->spare_percent, "added to the wire's length; default 5")
      ->check(number_within(0, 100));
  drawing_verb->footer(drawing_help);
  drawing_verb->callback([=, &code] {
    drawing->command = command_of(*drawing_verb);
    code = run_drawing(*drawing);
  });
}

void add_offset(CLI::App& app, ExitCode& code) {
  const auto offset = std::make_shared<OffsetOptions>();
  CLI::App* offset_verb = app.add_subcommand("offset", "what the current does to a magnet beside the axis");
  add_device_file(*offset_verb, offset->point.device_file);
  offset_verb->add_option("--offset-mm", offset->offset_mm, "sideways, along x; default 0")
      ->check(number_within(0, 1e4));
  offset_verb->add_option("--tilt-deg", offset->tilt_deg, "its +z end towards x; default 0")
      ->check(number_within(-90, 90));
  offset_verb
      ->add_option("--pair-mm", offset->pair_distance_mm,
                   "between the axes of two equal coils on either side of the path")
      ->check(above_zero());
  offset_verb
      ->add_option("--displacement-mm", offset->point.displacement_mm, "default: the first of the file")
      ->check(place_in_mm());
  offset_verb->add_option("--current", offset->point.currents, "circuit=ampere")
      ->allow_extra_args(false)
      ->delimiter(',');
  add_results_folder(*offset_verb, offset->point.folder);
  offset_verb->add_flag("!--no-files", offset->point.files, "print only");
  offset_verb->footer(offset_help);
  offset_verb->callback([=, &code] {
    offset->point.command = command_of(*offset_verb);
    code = run_offset(*offset);
  });
}

void add_export(CLI::App& app, ExitCode& code) {
  const auto exported = std::make_shared<ExportOptions>();
  CLI::App* export_verb = app.add_subcommand("export", "a solved table for other programs");
  export_verb->add_option("SOURCE", exported->source, "device file, its results folder, or force_table.csv")
      ->required();
  export_verb
      ->add_option("--to", exported->formats, "npz, mat, netcdf, xspice, modelica or c; may be repeated")
      ->required()
      ->allow_extra_args(false)
      ->check(CLI::IsMember(names_of_formats()));
  export_verb->add_option("--circuit", exported->circuit, "which circuit; default: the only one");
  export_verb->add_option("--parts", exported->parts, "points in each interval of the table; default 2")
      ->check(CLI::Range(1, 20));
  export_verb->add_flag("--fixed-point", exported->fixed_point, "c: in whole um, mA, mN and uWb");
  export_verb->add_option("-o", exported->folder, "folder for the files; default: where the table is");
  export_verb->footer(export_help);
  export_verb->callback([=, &code] {
    exported->command = command_of(*export_verb);
    code = run_export(*exported);
  });
}

void add_advise(CLI::App& app, ExitCode& code) {
  const auto advise = std::make_shared<AdviseOptions>();
  CLI::App* advise_verb =
      app.add_subcommand("advise", "what follows from the table: heat, sensor, switching, holding, ratings");
  add_device_file(*advise_verb, advise->device_file);
  add_results_folder(*advise_verb, advise->folder);
  advise_verb->add_option("--circuit", advise->circuit, "which circuit; default: the first that varies");
  add_threads(*advise_verb, advise->threads);
  advise_verb->footer(advise_help);
  advise_verb->callback([=, &code] {
    advise->command = command_of(*advise_verb);
    code = run_advise(*advise);
  });
}

void add_report(CLI::App& app, ExitCode& code) {
  const auto report = std::make_shared<ReportOptions>();
  CLI::App* report_verb = app.add_subcommand("report", "one page with everything, to read, print or send");
  report_verb->add_option("SOURCE", report->source, "device file, or the folder of its results")->required();
  report_verb->add_option("-o", report->folder, "folder for the page; default: that of the results");
  add_threads(*report_verb, report->threads);
  report_verb->add_option("--circuit", report->circuit,
                          "whose heat, switching and ratings; default: the first that varies");
  report_verb->add_option("--variants", report->variants,
                          "folder of coilpull variants: its table, to be sorted");
  report_verb->add_flag("!--no-advice", report->advice,
                        "without heat, sensors, switching, holding and ratings");
  report_verb->add_flag("!--no-spread", report->spread, "without what the ranges of the input leave open");
  report_verb->add_flag("--quiet", report->quiet, "no progress, no summary");
  report_verb->footer(report_help);
  report_verb->callback([=, &code] {
    report->command = command_of(*report_verb);
    code = run_report(*report);
  });
}

}  // namespace

void add_workshop_verbs(CLI::App& app, ExitCode& code) {
  for (const auto add : {add_advise, add_drawing, add_offset, add_export, add_report}) add(app, code);
}

}  // namespace coilpull
