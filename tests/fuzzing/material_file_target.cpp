// SPDX-License-Identifier: GPL-3.0-or-later
// A material file is refused with its name in front, or its law can be evaluated from weak to strong fields.
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>

#include "materials/bad_material.hpp"
#include "materials/magnet_material.hpp"
#include "materials/soft_material.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;
namespace fs = std::filesystem;

namespace {

/// A file of this process, removed at its end.
class OwnFile {
public:
  OwnFile() : path(fs::temp_directory_path() / ("coilpull_fuzzed_" + std::to_string(getpid()) + ".toml")) {}
  ~OwnFile() { fs::remove(path); }
  const fs::path path;
};

template <class Read>
void try_to(const std::string& name, const Read& read) {
  try {
    read();
  } catch (const BadMaterial& refused) {
    if (std::string(refused.what()).find(name) == std::string::npos)
      found(std::string("a refusal without the file's name: ") + refused.what());
  }
}

void use(const SoftLaw& law) {
  for (const double b : {1e-6, 0.1, 1.0, 1.9, 3.0}) {
    const LawPoint at = evaluate(law, b);
    if (!std::isfinite(at.energy_density) || !std::isfinite(at.h) || !(at.dh_db > 0))
      found("an accepted law is not finite and rising at B = " + std::to_string(b) + " T");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  static const OwnFile file;
  std::ofstream(file.path, std::ios::binary) << text_of(bytes, size);
  try_to(file.path, [&] { use(read_steel(file.path).law); });
  try_to(file.path, [&] {
    const MagnetMaterial grade = read_magnet(file.path);
    for (const double degC : {-40.0, 20.0, 80.0}) try_to("", [&] { recoil_line_at(grade, degC); });
  });
  return 0;
}
