// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "apps/commands/exit_code.hpp"

namespace coilpull {

/// Part `number` of `count`: variants number, number + count, number + 2 count, ...
struct Shard {
  std::size_t number = 1, count = 1;
};

/// "3/8". @throws BadDevice  is none
Shard shard_of(const std::string& words);

struct VariantsOptions {
  std::filesystem::path file;    ///< the variants file
  std::filesystem::path folder;  ///< of store and answers; empty: <file stem>_out
  int jobs = 0;                  ///< variants at once; 0: one a core
  Shard shard = {};
  bool each = false;  ///< a line when a variant begins and when it is stored
  bool quiet = false;
  std::vector<std::string> command = {};  ///< see RunOrigin
};

/// Solves what is not solved yet and, unless it is only a part of all, answers.
ExitCode run_variants(const VariantsOptions& options);

/// Puts the results of several stores into one, and says beside it which these were.
/// @param command  as descriptions of results have it, see RunOrigin
ExitCode run_variants_merge(const std::vector<std::filesystem::path>& stores,
                            const std::filesystem::path& into, const std::vector<std::string>& command);

}  // namespace coilpull
