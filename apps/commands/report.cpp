// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/report.hpp"

#include <iostream>

#include "apps/commands/advise.hpp"
#include "apps/commands/results_folder.hpp"
#include "apps/commands/stop_signal.hpp"
#include "apps/commands/table.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/input/solved_rows.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/report/report_page.hpp"
#include "apps/report/stroke_topic.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

/// @return  the folder with the results
fs::path solve_first(const ReportOptions& options, ExitCode& code) {
  TableOptions table;
  table.device_file = options.source;
  table.folder = options.folder;
  table.threads = options.threads;
  table.spread = options.spread;
  table.pictures.wanted = false;
  table.quiet = options.quiet;
  table.command = options.command;
  code = run_table(table);
  return results_folder(options.source, options.folder);
}

/// What a table cannot be advised on is no fault of the report: it says so.
void add_topics(const ResultFolder& results, const ReportOptions& options, ReportContents& contents) {
  const ProgressStyle style = options.quiet ? ProgressStyle::silent : style_for_stderr();
  try {
    const ForceTable table = solved_rows(results.table);
    const Advice advice =
        advise(results.device, table, options.circuit, solve_beside(results.device, options.threads, style));
    contents.topics = topics_of(advice, results.device.device.title);
    contents.topics.push_back(stroke_topic(results.device, table, advice));
  } catch (const BadDevice& lacking) {
    contents.why_no_topics = lacking.what();
  } catch (const BadCsv& lacking) {
    contents.why_no_topics = lacking.what();
  }
}

std::optional<CsvFile> variants_of(const ReportOptions& options, const fs::path& results) {
  if (!options.variants.empty()) return read_csv_file(options.variants / "variants.csv");
  if (!fs::exists(results / "variants.csv")) return std::nullopt;
  return read_csv_file(results / "variants.csv");
}

void write_report(const ReportOptions& options, const fs::path& results, const fs::path& folder) {
  const ResultFolder all = open_result_folder(results);
  ReportContents contents{picture_of_device(all.device.device), pictures_of_steels(all.device.device)};
  contents.variants = variants_of(options, results);
  contents.fields = pictures_of_fields(all);
  if (options.advice) add_topics(all, options, contents);
  if (stop_was_asked()) return;
  std::vector<fs::path> written = {folder / "report.html"};
  write_safely(written.front(), report_page(all, contents));
  RunOrigin run{options.command, {origin_of(all.device)}, all.files};
  if (contents.variants) run.files.push_back(input_file(contents.variants->name, contents.variants->sha256));
  write_manifest(folder, "report.html", run, written);
  if (!options.quiet) std::cout << written_text(written);
}

}  // namespace

ExitCode run_report(const ReportOptions& options) {
  ExitCode code = exit_good;
  const bool solved = fs::is_directory(options.source);
  const fs::path results = solved ? options.source : solve_first(options, code);
  if (code == exit_stopped) return code;
  const fs::path folder =
      solved && !options.folder.empty() ? results_folder(options.source, options.folder) : results;

  try {
    write_report(options, results, folder);
  } catch (const BadCsv& lacking) {
    if (code != exit_row_not_ok) throw;  // the table is somebody's
    std::cerr << "coilpull: no report: " << lacking.what() << "\n";
  }
  if (stop_was_asked()) return exit_stopped;
  return code;
}

}  // namespace coilpull
