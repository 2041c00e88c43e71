// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/export.hpp"

#include <algorithm>
#include <cctype>
#include <iostream>
#include <optional>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/device_file/table.hpp"
#include "apps/exchange/array_file.hpp"
#include "apps/exchange/c_header.hpp"
#include "apps/exchange/coenergy_table.hpp"
#include "apps/exchange/modelica_text.hpp"
#include "apps/exchange/npz_file.hpp"
#include "apps/exchange/xspice_text.hpp"
#include "apps/input/table_description.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/program_version.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sha256.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

struct TablePlace {
  fs::path table;
  std::string name;  ///< of the device, for names of files and in them
};

/// Letters that every one of the formats takes in a name.
std::string identifier(const std::string& words) {
  std::string name;
  for (const char c : words) {
    const auto letter = static_cast<unsigned char>(c);
    name += letter < 128 && std::isalnum(letter) ? static_cast<char>(std::tolower(letter)) : '_';
  }
  if (name.empty() || !std::isalpha(static_cast<unsigned char>(name[0]))) name = "device_" + name;
  return name;
}

std::string without_out(const std::string& folder) {
  const std::string end = "_out";
  return folder.size() > end.size() && folder.compare(folder.size() - end.size(), end.size(), end) == 0
             ? folder.substr(0, folder.size() - end.size())
             : folder;
}

TablePlace place_of(const fs::path& source) {
  const char* const table = "force_table.csv";
  if (fs::is_directory(source))
    return {source / table, without_out(fs::weakly_canonical(source).filename().string())};
  if (source.extension() == ".toml")
    return {fs::path(source.stem().string() + "_out") / table, source.stem().string()};
  if (source.filename() == table)
    return {source, without_out(fs::weakly_canonical(source).parent_path().filename().string())};
  return {source, source.stem().string()};
}

/// The device's title from the file beside the table, where it is. Adds what it reads to `run`.
std::string title_of(const fs::path& table, const std::string& name, RunOrigin& run) {
  const fs::path file = table.string() + "-metadata.json";
  std::error_code error;
  if (!fs::is_regular_file(file, error)) return name;
  const std::string text = text_of_file(file, "the description of a table");
  run.files.push_back(input_file(file.string(), sha256(text)));
  const std::string title = read_table_description(text).title;
  return title.empty() ? name : title;
}

/// Facts about the fit, for the screen and for the files.
std::vector<std::string> notes_on(const CircuitRows& rows, const CoenergyFit& fit,
                                  const SampledTable& table) {
  std::vector<std::string> notes = {
      "Made by coilpull " + program_version() + " from " +
          std::to_string(rows.rows.size() - fit.rows_left_out) +
          " rows of a force table, through one function W'(z, i) of which force and flux linkage are the "
          "slopes.",
      "Farthest from a row, in error bars of that row: force " + rounded(fit.force.bars, 2) +
          ", flux linkage " + rounded(fit.linkage.bars, 2) + "; coenergy off by " +
          rounded(fit.coenergy.bars * fit.coenergy_bar_J, 2) + " J at most.",
      "Straight lines between the points add up to " + rounded(table.force_between_N, 2) + " N and " +
          rounded(table.linkage_between_Wb, 2) + " Wb."};
  if (!fit.within_bars())
    notes.push_back("NOT WITHIN THE BARS: the rows are too few or do not belong together.");
  if (!rows.others.empty()) notes.push_back("The other circuits stand still: " + rows.others + ".");
  if (fit.rows_left_out > 0)
    notes.push_back(std::to_string(fit.rows_left_out) + " rows without usable numbers were left out.");
  notes.push_back("On axis, one coil or one set of coils, statics: no eddy currents, no hysteresis.");
  return notes;
}

struct OutFile {
  std::string name, content;
};

using Make = std::vector<OutFile> (*)(const SampledTable&, const std::string&, const ExportOptions&);
struct Format {
  const char* name;
  Make make;
};

const std::vector<Format>& formats() {
  using T = SampledTable;
  using S = std::string;
  using O = ExportOptions;
  static const std::vector<Format> all = {
      {"npz",
       [](const T& t, const S& n, const O&) {
         return std::vector<OutFile>{{n + ".npz", npz_bytes(t)}};
       }},
      {"mat",
       [](const T& t, const S& n, const O&) {
         return std::vector<OutFile>{{n + ".mat", array_bytes(t, ArrayFormat::mat)}};
       }},
      {"netcdf",
       [](const T& t, const S& n, const O&) {
         return std::vector<OutFile>{{n + ".nc", array_bytes(t, ArrayFormat::netcdf)}};
       }},
      {"xspice",
       [](const T& t, const S& n, const O&) {
         return std::vector<OutFile>{{n + "_force.table", xspice_force(t)},
                                     {n + "_linkage.table", xspice_linkage(t)},
                                     {n + ".cir", xspice_subcircuit(t, n)}};
       }},
      {"modelica",
       [](const T& t, const S& n, const O&) {
         return std::vector<OutFile>{{n + "_tables.txt", modelica_text(t, n + "_tables.txt")}};
       }},
      {"c", [](const T& t, const S& n, const O& o) {
         return std::vector<OutFile>{
             {n + "_table.h", c_header(t, n, o.fixed_point ? CNumbers::fixed : CNumbers::floating)}};
       }}};
  return all;
}

std::vector<OutFile> made(const Format& format, const SampledTable& table, const TablePlace& place,
                          const ExportOptions& options) {
  try {
    return format.make(table, identifier(place.name), options);
  } catch (const std::invalid_argument& trouble) {
    refuse_csv({place.table.string()}, std::string("--fixed-point: ") + trouble.what() + ".",
               "Leave --fixed-point out, or give fewer --parts.");
  }
}

}  // namespace

std::vector<std::string> names_of_formats() {
  std::vector<std::string> names;
  for (const Format& format : formats()) names.push_back(format.name);
  return names;
}

ExitCode run_export(const ExportOptions& options) {
  const TablePlace place = place_of(options.source);
  if (!fs::exists(place.table))
    refuse_csv({place.table.string()}, "there is no such table.",
               "Solve it first by `coilpull table`, or name a force_table.csv or the folder that holds it.");
  const auto asked = [&](const char* name) {
    return std::find(options.formats.begin(), options.formats.end(), name) != options.formats.end();
  };
  if (asked("mat") || asked("netcdf")) require_arrays();
  const CsvFile csv = read_csv_file(place.table);
  const CircuitRows rows = rows_of_circuit(csv, options.circuit);
  RunOrigin run{options.command, {}, {input_file(csv.name, csv.sha256)}};
  const fs::path folder = options.folder.empty() ? place.table.parent_path() : options.folder;
  if (!folder.empty()) prepare_folder(folder);

  const CoenergyFit fit = fit_coenergy(rows.rows);
  SampledTable table = sampled(fit.function, options.parts);
  table.title = title_of(place.table, place.name, run);
  table.circuit = rows.circuit;
  table.notes = notes_on(rows, fit, table);
  for (const std::string& note : table.notes) std::cout << note << "\n";
  std::vector<fs::path> written;
  for (const Format& format : formats()) {
    if (!asked(format.name)) continue;
    std::vector<fs::path> of_format;
    for (const OutFile& file : made(format, table, place, options)) {
      of_format.push_back(folder / file.name);
      write_safely(of_format.back(), file.content);
    }
    write_manifest(folder, of_format.back().filename().string(), run, of_format);
    written.insert(written.end(), of_format.begin(), of_format.end());
  }
  std::cout << "\n" << written_text(written);
  return fit.within_bars() ? exit_good : exit_row_not_ok;
}

}  // namespace coilpull
