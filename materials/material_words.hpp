// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace coilpull {

/// How sure the numbers of a material are, from the surest to the least.
enum class Evidence {
  read,        ///< stood in the source
  recomputed,  ///< worked out from what stood in the source
  memory,      ///< from memory: nobody looked it up
  estimate,    ///< judged, to hold a range
  invented,    ///< for the examples, no real material
  not_stated   ///< a person's own file that does not say
};

/// "read", "recomputed", "memory", "estimate", "invented" or "not stated".
const char* word_for(Evidence evidence);

/// The first word of a text like "read: two tables agree"; "not stated" too.
/// @throws BadMaterial  with the key "certainty" for any other first word
Evidence evidence_of(const std::string& words);

/// What every material file says in words; what it does not say reads "not stated".
struct MaterialWords {
  std::string name;  ///< lower-case trade words
  std::vector<std::string> also_called = {};
  std::string family = {};                   ///< "mild steel", "sintered neodymium", ...
  std::string source = {}, certainty = {};   ///< who says so; how sure it is, with the reason
  std::string condition = {}, beyond = {};   ///< for what it holds, and where it must not be used
  Evidence evidence = Evidence::not_stated;  ///< first word of certainty
  std::filesystem::path file = {};           ///< where it was read
  std::string file_text = {};                ///< all of it, so that a result can tell what it was made from
};

}  // namespace coilpull
