// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/picture_files.hpp"

#include "apps/output/safe_file.hpp"

namespace coilpull {

std::vector<std::filesystem::path> write_picture(const Canvas& canvas, const std::filesystem::path& folder,
                                                 const std::string& stem, const std::string& title) {
  const std::vector<std::filesystem::path> files = {folder / (stem + ".png"), folder / (stem + ".svg")};
  write_safely(files[0], canvas.png());
  write_safely(files[1], canvas.svg(title));
  return files;
}

}  // namespace coilpull
