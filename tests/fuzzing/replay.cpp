// SPDX-License-Identifier: GPL-3.0-or-later
// Runs a target without a fuzzer: first on files and folders of files, so that what was found once stays
// mended; then on blind changes of these, always the same ones, where no clang is there to search with open
// eyes. Run: replay_<target> [--changed COUNT] [--first NUMBER] <file or folder>...   ends with 1 when there
// was nothing to run. An input that breaks the target is left as broken_input in the working folder.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "tests/fuzzing/target.hpp"
#include "tests/physics/dice.hpp"

namespace fs = std::filesystem;

namespace {

constexpr std::size_t longest = 1 << 14;

std::vector<std::string> contents_of(const std::vector<fs::path>& places) {
  std::vector<fs::path> files;
  for (const fs::path& place : places)
    if (fs::is_directory(place)) {
      for (const auto& entry : fs::recursive_directory_iterator(place))
        if (entry.is_regular_file()) files.push_back(entry.path());
    } else {
      files.push_back(place);
    }
  std::sort(files.begin(), files.end());
  std::vector<std::string> contents;
  for (const fs::path& file : files) {
    std::ifstream in(file, std::ios::binary);
    contents.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  return contents;
}

void run(const std::string& input) {
  std::ofstream("broken_input", std::ios::binary) << input;
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
}

std::size_t place_in(const std::string& text, coilpull::Dice& dice) {
  return static_cast<std::size_t>(dice.between(0, static_cast<double>(text.size() + 1)));
}

/// One to four changes: a byte, a word that means something, a piece taken out, doubled, or put in from
/// another seed.
std::string changed(std::string text, const std::vector<std::string>& seeds, coilpull::Dice& dice) {
  static const char* const words[] = {"-",       "0",
                                      "1e308",   "1e-308",
                                      "nan",     "inf",
                                      "-0.0",    "9223372036854775808",
                                      "\"",      "'",
                                      "[",       "]",
                                      "{",       "}",
                                      "=",       "\n",
                                      ",",       ";",
                                      "\t",      "#",
                                      "\\u0000", "\xEF\xBB\xBF",
                                      "\xFF",    ".",
                                      "e",       "00",
                                      "true",    "_mm",
                                      "1e-12",   "1.0000000001",
                                      "\r\n",    "[[",
                                      "1e400"};
  const int changes = 1 + dice.one_of(4);
  for (int i = 0; i < changes; ++i) {
    const std::size_t at = place_in(text, dice),
                      length = std::min(text.size() - at, place_in(text, dice) / 4);
    switch (dice.one_of(6)) {
      case 0:
        if (at < text.size()) text[at] = static_cast<char>(dice.one_of(256));
        break;
      case 1:
        text.insert(at, words[dice.one_of(std::size(words))]);
        break;
      case 2:
        text.replace(at, std::min<std::size_t>(length, 12), words[dice.one_of(std::size(words))]);
        break;
      case 3:
        text.erase(at, length);
        break;
      case 4:
        text.insert(at, text.substr(at, length));
        break;
      default: {
        const std::string& other =
            seeds[static_cast<std::size_t>(dice.one_of(static_cast<int>(seeds.size())))];
        const std::size_t from = place_in(other, dice);
        text.insert(at, other.substr(from, place_in(other, dice) / 4));
      }
    }
  }
  return text.substr(0, longest);
}

}  // namespace

int main(int argc, char** argv) {
  unsigned long count = 0, first = 1;
  std::vector<fs::path> places;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if ((word == "--changed" || word == "--first") && i + 1 < argc)
      (word == "--first" ? first : count) = std::stoul(argv[++i]);
    else
      places.emplace_back(word);
  }
  const std::vector<std::string> seeds = contents_of(places);
  if (seeds.empty()) return 1;
  for (const std::string& seed : seeds) run(seed);
  for (unsigned long i = first; i < first + count; ++i) {
    coilpull::Dice dice(static_cast<unsigned>(i));
    run(changed(seeds[i % seeds.size()], seeds, dice));
  }
  fs::remove("broken_input");
  std::printf("%zu inputs as they are, %lu changed ones\n", seeds.size(), count);
  return 0;
}
