// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/device_file/nearest_name.hpp"

#include "tests/near.hpp"

namespace coilpull {

TEST_CASE(
    "one slip of the hand is one letter apart: added, dropped, changed, swapped, while capitals are no "
    "slip") {
  CHECK(letters_apart("turns", "turns") == 0);
  CHECK(letters_apart("Turns", "turns") == 0);
  CHECK(letters_apart("trns", "turns") == 1);
  CHECK(letters_apart("turnss", "turns") == 1);
  CHECK(letters_apart("burns", "turns") == 1);
  CHECK(letters_apart("tunrs", "turns") == 1);
  CHECK(letters_apart("", "turns") == 5);
}

TEST_CASE("a name is proposed only when it is so near that nothing else can be meant") {
  CHECK(nearest_name("trns", {"tube", "turns", "wire"}) == "turns");
  CHECK(nearest_name("plungr", {"sleeve", "plunger"}) == "plunger");
  CHECK(!nearest_name("inner_radius", {"outer_radius"}));  // three letters: another word
  CHECK(!nearest_name("r", {"z"}));                        // one letter of one
  CHECK(!nearest_name("turns", {}));
}

}  // namespace coilpull
