// SPDX-License-Identifier: GPL-3.0-or-later
// Points of a magnetization curve: refused, or turned into a material file, also smoothed and fitted.
#include "apps/material/import_points.hpp"
#include "materials/bad_material.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;

namespace {

void import(std::string_view text, const ImportChoice& choice) {
  try {
    const ImportedMaterial material = import_points(read_csv_text(text, "fuzzed.csv"), choice);
    if (material_file_text(material, choice).empty() || import_text(material).empty())
      found("nothing is said");
  } catch (const BadCsv&) {
  } catch (const BadMaterial&) {
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  if (size > 4096) return 0;  // smoothing and fitting cost more with each point
  ImportChoice choice{"fuzzed", "a fuzzer"};
  import(text_of(bytes, size), choice);
  choice.smooth = true;
  import(text_of(bytes, size), choice);
  choice.fit = "froehlich";
  import(text_of(bytes, size), choice);
  return 0;
}
