// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/vtu_file.hpp"

#include <dlfcn.h>

#include <string>

#include "apps/output/number_text.hpp"
#include "apps/output/plain_text.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/vtu_module.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

/// Beside the running program, where it was built, where it was installed.
std::vector<fs::path> module_places() {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  std::vector<fs::path> places;
  if (!error) places.push_back(program.parent_path() / "coilpull_vtu.so");
  places.emplace_back(COILPULL_BUILT_VTU);
  places.emplace_back(COILPULL_INSTALLED_VTU);
  return places;
}

MakeVtu open_module() {
  for (const fs::path& place : module_places()) {
    std::error_code error;
    if (!fs::exists(place, error)) continue;
    void* module = ::dlopen(place.c_str(), RTLD_NOW | RTLD_LOCAL);
    if (!module) throw NoVtu("cannot open " + place.string() + ": " + ::dlerror());
    if (void* found = ::dlsym(module, make_vtu_name)) return reinterpret_cast<MakeVtu>(found);
    throw NoVtu(place.string() + " is of another build.");
  }
  throw NoVtu(
      "this build has no VTK. In the source tree: bash apps/install_packages viewer, then build again.");
}

MakeVtu module() {
  static const MakeVtu opened = open_module();
  return opened;
}

}  // namespace

void require_vtu() { module(); }

void write_vtu(const fs::path& file, const VtuCells& cells) {
  VtuCells clean = cells;
  clean.title = plain_text(cells.title);
  std::string text;
  if (!module()(clean, text)) throw CannotWrite("cannot write file " + file.string() + ": " + text + ".");
  write_safely(file, text);
}

std::string pvd_text(const std::vector<VtuStep>& steps) {
  std::string text =
      "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\" version=\"0.1\">\n  <Collection>\n";
  for (const VtuStep& step : steps)
    text += "    <DataSet timestep=\"" + shortest(step.displacement_mm) + "\" part=\"0\" file=\"" +
            escaped_for_xml(step.file) + "\"/>\n";
  return text + "  </Collection>\n</VTKFile>\n";
}

}  // namespace coilpull
