// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/data_directory.hpp"

#include <cstdlib>
#include <string>
#include <system_error>

#include "materials/bad_material.hpp"

namespace coilpull {

namespace fs = std::filesystem;

fs::path data_directory() {
  std::error_code none;
  if (const char* asked = std::getenv("COILPULL_DATA"); asked != nullptr && *asked != '\0') {
    if (fs::is_directory(asked, none)) return asked;
    throw BadMaterial("COILPULL_DATA",
                      std::string("COILPULL_DATA = ") + asked +
                          ": no such folder. It must hold steels, magnets and wire; unset it to use "
                          "the data that come with the program");
  }
  std::string looked;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  for (const fs::path& place : {program.parent_path() / "../share/coilpull", fs::path(COILPULL_SOURCE_DATA),
                                fs::path(COILPULL_INSTALLED_DATA)}) {
    if (fs::is_directory(place / "steels", none)) return place.lexically_normal();
    looked += "\n  " + place.lexically_normal().string();
  }
  throw BadMaterial(
      "", "material data not found. Set COILPULL_DATA to their folder; looked for steels in" + looked);
}

}  // namespace coilpull
