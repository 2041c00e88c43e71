// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/verb_options.hpp"

#include <algorithm>
#include <cmath>

#include "apps/output/number_text.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

bool is_one_of(const std::string& name, const std::vector<std::string>& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// Where results go, how fast, how much is told.
bool changes_nothing(const CLI::Option& option) {
  return is_one_of(option.get_single_name(), {"o", "threads", "jobs", "each", "quiet"});
}

/// The last part of a path, which may end with a slash.
std::string without_folder(const std::string& path) {
  const fs::path plain = fs::path(path).lexically_normal();
  return (plain.has_filename() ? plain : plain.parent_path()).filename().string();
}

/// Every operand is a path or, of `material show`, may be one; so may a material behind PART=.
std::string without_folders(const CLI::Option& option, const std::string& value) {
  if (value.find('/') == std::string::npos) return value;
  if (option.get_positional() || is_one_of(option.get_single_name(), {"table", "variants"}))
    return without_folder(value);
  if (option.get_single_name() != "with") return value;
  const std::size_t name = value.find('=') + 1;  // 0: there is no part
  return value.substr(0, name) + without_folder(value.substr(name));
}

}  // namespace

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

std::vector<std::string> command_of(const CLI::App& verb) {
  std::vector<std::string> words = {verb.get_name()};
  for (const CLI::App* above = verb.get_parent(); above->get_parent() != nullptr; above = above->get_parent())
    words.insert(words.begin(), above->get_name());
  for (const CLI::Option* option : verb.get_options()) {
    if (option->count() == 0 || changes_nothing(*option)) continue;
    const std::string name = "--" + option->get_single_name();
    if (option->get_items_expected_max() == 0) {  // a flag
      words.push_back(name);
      continue;
    }
    for (const std::string& value : option->results()) {
      if (!option->get_positional()) words.push_back(name);
      words.push_back(without_folders(*option, value));
    }
  }
  return words;
}

}  // namespace coilpull
