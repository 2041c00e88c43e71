// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/verb_options.hpp"

namespace coilpull {

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
