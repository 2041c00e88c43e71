// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/validate.hpp"

#include <algorithm>
#include <iostream>
#include <thread>

#include "apps/commands/results_folder.hpp"
#include "apps/commands/write_manifest.hpp"
#include "apps/device_file/bad_device.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/validation_csv.hpp"
#include "apps/validation/validation_page.hpp"

namespace coilpull {

ExitCode run_validate(const ValidateOptions& options) {
  if (!std::filesystem::is_directory(published_path("")))
    throw BadDevice(
        "the published cases are not in " + published_path("").string() +
        ".\n  They come with the program: unset COILPULL_DATA, or copy its folder published there.");
  prepare_folder(options.folder);
  std::vector<Family> families = all_families();
  if (options.quick)
    families.erase(
        std::remove_if(families.begin(), families.end(), [](const Family& family) { return !family.quick; }),
        families.end());
  const int threads = static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1U, 16U));
  const Validation all = validate(families, threads, [&](const std::string& name, std::size_t done) {
    std::cerr << done << " of " << families.size() << ": " << name << std::endl;
  });

  const std::vector<Check> checks = all.checks();
  const ValidationCounts counts = count(checks);
  write_safely(options.folder / "validation.csv", validation_csv(checks));
  write_safely(options.folder / "index.html", validation_page(checks, page_made_now(!options.quick)));
  std::vector<std::filesystem::path> written = {options.folder / "index.html",
                                                options.folder / "validation.csv"};
  write_manifest(options.folder, "validation.csv", {options.command}, written);
  std::cout << totals_text(counts) << "\n";
  for (const Check& check : checks)
    if (verdict_of(check) == Verdict::differs) std::cout << "differs: " << line_of(check) << "\n";
  std::cout << written_text(written);
  return counts.differs == 0 ? exit_good : exit_row_not_ok;
}

}  // namespace coilpull
