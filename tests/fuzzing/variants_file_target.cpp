// SPDX-License-Identifier: GPL-3.0-or-later
// A variants file beside those of data/variants/ is refused with words, or read; then the first and the last
// of what each key may be is put into the device file, which is read or refused with words as well.
#include "apps/device_file/read_device_file.hpp"
#include "apps/variants/variants_file.hpp"
#include "materials/data_directory.hpp"
#include "tests/fuzzing/target.hpp"

using namespace coilpull;

namespace {

using Values = std::map<std::string, std::string>;

void read_device(const VariantsFile& file, const Values& values) {
  try {
    open_device_text(file.device_text.with(values), "varied.toml", file.device_path.parent_path());
  } catch (const BadDevice& refused) {
    if (std::string(refused.what()).rfind("varied.toml", 0) != 0)
      found(std::string("a refusal without its place: ") + refused.what());
  }
}

/// @throws BadDevice
void read(std::string_view text, const std::filesystem::path& path) {
  const VariantsFile file = read_variants_text(text, path);
  Values first = file.set, last = file.set;
  const auto take = [&](const Choices& choices) {
    if (choices.values.empty()) return;
    first[choices.path] = choices.values.front();
    last[choices.path] = choices.values.back();
  };
  for (const auto* list : {&file.vary, &file.hypercube})
    for (const Choices& choices : *list) take(choices);
  for (const auto& group : file.together)
    for (const Choices& choices : group) take(choices);
  for (const Follower& follower : file.follow) file.device_text.number(follower.leader, first);
  read_device(file, first);
  read_device(file, last);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  static const std::filesystem::path path = data_directory() / "variants" / "fuzzed.toml";
  try {
    read(text_of(bytes, size), path);
  } catch (const BadDevice& refused) {
    const std::string words = refused.what();
    if (words.rfind(path.string(), 0) != 0 && words.find("01_tube_pusher.toml") == std::string::npos &&
        words.find("04_row_stage.toml") == std::string::npos)
      found("a refusal without its place: " + words);
  }
  return 0;
}
