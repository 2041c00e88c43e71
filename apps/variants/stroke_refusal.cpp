// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/variants/stroke_refusal.hpp"

#include <regex>

#include "apps/advice/advice.hpp"
#include "apps/motion/stroke_faults.hpp"

namespace coilpull {
namespace {

/// Where an option is stated as a key: start-mm as start_mm, start_m or start_in. Nothing: it is not.
const Place* place_of_option(const StrokeWish& wish, const std::string& option) {
  const std::string key = as_stroke_keys("--" + option);
  for (const std::string& spelling :
       {key, key.substr(0, key.size() - 1), key.substr(0, key.size() - 2) + "in"})
    if (const auto stated = wish.place_of.find(spelling); stated != wish.place_of.end())
      return &stated->second;
  return nullptr;
}

}  // namespace

std::string as_stroke_keys(const std::string& sentence) {
  static const std::regex option("--([a-z]+)(-([a-z]+))?(-([a-z]+))?");
  std::string words;
  auto from = sentence.cbegin();
  for (std::sregex_iterator at(sentence.begin(), sentence.end(), option), end; at != end; ++at) {
    std::string key = at->str().substr(2);
    for (char& letter : key)
      if (letter == '-') letter = '_';
    words += std::string(from, (*at)[0].first) + key;
    from = (*at)[0].second;
  }
  return words + std::string(from, sentence.cend());
}

void refuse_without_stroke(const DeviceFile& device, const StrokeWish& wish) {
  refuse_without_motion(device, "a stroke");
  const auto fault = stroke_fault(device, wish.choice, wish.circuit);
  if (!fault) return;
  const Place* own = fault->option.empty() ? nullptr : place_of_option(wish, fault->option);
  const std::string fact = own != nullptr          ? fault->fact
                           : fault->option.empty() ? device.file_name + ": " + fault->fact
                                                   : "--" + fault->option + " " + fault->fact;
  refuse(own != nullptr ? *own : wish.place, as_stroke_keys(fact), as_stroke_keys(fault->advice));
}

}  // namespace coilpull
