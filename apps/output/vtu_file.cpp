// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/vtu_file.hpp"

#include <string>

#include "apps/modules/open_module.hpp"
#include "apps/output/number_text.hpp"
#include "apps/output/plain_text.hpp"
#include "apps/output/safe_file.hpp"
#include "apps/output/vtu_module.hpp"

namespace coilpull {
namespace {

namespace fs = std::filesystem;

MakeVtu open_module() {
  try {
    return reinterpret_cast<MakeVtu>(symbol_of_module(
        {"VTK", "coilpull_vtu.so", COILPULL_BUILT_VTU, COILPULL_INSTALLED_VTU}, make_vtu_name));
  } catch (const NoModule& missing) {
    throw NoVtu(std::string(missing.what()) +
                " In the source tree: bash apps/install_packages viewer, then build again.");
  }
}

MakeVtu module() {
  static const MakeVtu opened = open_module();
  return opened;
}

}  // namespace

void require_vtu() { module(); }

void write_vtu(const fs::path& folder, const fs::path& place, const VtuCells& cells) {
  VtuCells clean = cells;
  clean.title = plain_text(cells.title);
  std::string text;
  if (!module()(clean, text))
    throw CannotWrite("cannot write file " + (folder / place).string() + ": " + text + ".");
  write_below(folder, place, text);
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
