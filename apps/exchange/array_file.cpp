// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/exchange/array_file.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "apps/modules/open_module.hpp"
#include "apps/output/plain_text.hpp"
#include "apps/output/safe_file.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

WriteArrays module() {
  static const WriteArrays opened = [] {
    try {
      return reinterpret_cast<WriteArrays>(symbol_of_module(
          {"libmatio and libnetcdf", "coilpull_arrays.so", COILPULL_BUILT_ARRAYS, COILPULL_INSTALLED_ARRAYS},
          write_arrays_name));
    } catch (const NoModule& missing) {
      throw NoArrays(std::string(missing.what()) +
                     " In the source tree: bash apps/install_packages arrays, then build again.");
    }
  }();
  return opened;
}

/// A folder of our own for the libraries, which write by name only; gone at the end.
struct Scratch {
  fs::path folder;
  Scratch() {
    std::string pattern = (fs::temp_directory_path() / "coilpull_XXXXXX").string();
    if (!::mkdtemp(pattern.data())) throw CannotWrite("cannot write folder " + pattern + ".");
    folder = pattern;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    fs::remove_all(folder, ignored);
  }
};

}  // namespace

void require_arrays() { module(); }

std::string array_bytes(const SampledTable& table, ArrayFormat format) {
  ArrayFile file{arrays_of(table), plain_text(table.title), plain_text(table.circuit), {}};
  for (const std::string& note : table.notes)
    file.notes += (file.notes.empty() ? "" : " ") + plain_text(note);
  const Scratch scratch;
  const fs::path path = scratch.folder / "table";
  std::string trouble;
  if (!module()(file, format, path.c_str(), trouble))
    throw CannotWrite("cannot write file " + path.string() + ": " + trouble + ".");
  std::ostringstream bytes;
  bytes << std::ifstream(path, std::ios::binary).rdbuf();
  return bytes.str();
}

}  // namespace coilpull
