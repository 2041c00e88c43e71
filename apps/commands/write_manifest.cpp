// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/commands/write_manifest.hpp"

#include "apps/output/manifest.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/sha256.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

std::string hash_of(const fs::path& file) {
  if (const auto hash = sha256_of_file(file)) return *hash;
  throw CannotWrite("cannot read back file " + file.string() + ", which was just written.");
}

}  // namespace

void write_manifest(const fs::path& folder, const std::string& name, const RunOrigin& run,
                    std::vector<fs::path>& results) {
  std::vector<ResultFile> files;
  files.reserve(results.size());
  for (const fs::path& result : results)
    files.push_back({result.lexically_relative(folder).generic_string(), hash_of(result)});
  write_safely(folder / (name + "-metadata.json"), manifest(run, files));
  results.push_back(folder / (name + "-metadata.json"));
}

}  // namespace coilpull
