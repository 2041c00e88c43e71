// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/verb_options.hpp"

#include <cmath>

#include "apps/output/number_text.hpp"

namespace coilpull {

CLI::Validator number_within(double least, double most) {
  const std::string range = "from " + shortest(least) + " to " + shortest(most);
  return {[=](std::string& given) {
            double value = NAN;
            const bool is_number = CLI::detail::lexical_cast(given, value);
            const bool fits = is_number && value >= least && value <= most;
            return fits ? std::string() : given + " is no number " + range;
          },
          range};
}

CLI::Validator place_in_mm() { return number_within(-1e6, 1e6); }

CLI::Validator above_zero() { return number_within(1e-6, 1e6); }

void add_device_file(CLI::App& verb, std::filesystem::path& file) {
  verb.add_option("FILE", file, "device file (TOML)")->required();
}

void add_results_folder(CLI::App& verb, std::filesystem::path& folder, const std::string& stem) {
  verb.add_option("-o", folder, "folder for the results; default: " + stem + "_out");
}

void add_threads(CLI::App& verb, int& threads) {
  verb.add_option("--threads", threads, "default: one a core")->check(CLI::Range(1, 1024));
}

void add_half_section(CLI::App& verb, bool& half) {
  verb.add_flag("--half-section", half, "draw only the half above the axis");
}

}  // namespace coilpull
