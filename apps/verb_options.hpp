// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <CLI/CLI.hpp>
#include <filesystem>
#include <string>
#include <vector>

namespace coilpull {

/// A number from `least` to `most`, which NaN is not; in the words of the option: nan, inf, 1e400 are
/// refused.
CLI::Validator number_within(double least, double most);
/// Any place on a drawing [mm].
CLI::Validator place_in_mm();
/// What is above 0 without a limit of its own: a supply, a length, a time in their usual units.
CLI::Validator above_zero();

// Words that several verbs share mean the same in each. What they fill outlives the verb.

/// FILE, required
void add_device_file(CLI::App& verb, std::filesystem::path& file);

/// -o; `stem` names the default, followed by _out
void add_results_folder(CLI::App& verb, std::filesystem::path& folder,
                        const std::string& stem = "<file stem>");

/// --threads, 1 to 1024
void add_threads(CLI::App& verb, int& threads);

/// --half-section
void add_half_section(CLI::App& verb, bool& half);

/// What a parsed verb was asked for, as descriptions of its results have it, see RunOrigin::command.
std::vector<std::string> command_of(const CLI::App& verb);

}  // namespace coilpull
