// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/program_version.hpp"

namespace coilpull {

std::string program_version() { return COILPULL_VERSION; }  // set by apps/CMakeLists.txt from project()

}  // namespace coilpull
