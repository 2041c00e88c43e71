// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/material_words.hpp"

#include "materials/bad_material.hpp"

namespace coilpull {

const char* word_for(Evidence evidence) {
  switch (evidence) {
    case Evidence::read:
      return "read";
    case Evidence::recomputed:
      return "recomputed";
    case Evidence::memory:
      return "memory";
    case Evidence::estimate:
      return "estimate";
    case Evidence::invented:
      return "invented";
    case Evidence::not_stated:
      break;
  }
  return "not stated";
}

Evidence evidence_of(const std::string& words) {
  for (const Evidence each : {Evidence::read, Evidence::recomputed, Evidence::memory, Evidence::estimate,
                              Evidence::invented, Evidence::not_stated}) {
    const std::string word = word_for(each);
    if (words == word || words.rfind(word + ":", 0) == 0) return each;
  }
  throw BadMaterial("certainty", "certainty = \"" + words +
                                     "\": must start with read, recomputed, memory, estimate or invented; a "
                                     "colon and the reason may follow");
}

}  // namespace coilpull
