// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/sensitivity_text.hpp"

#include <doctest/doctest.h>

using namespace coilpull;

namespace {

// Invented: what a list may hold, largest first.
SensitivityList invented_list() {
  SensitivityList list;
  list.force_N = -18.126;
  const Edge flat{{6e-3, -8e-3}, {0, -8e-3}};
  list.ranked = {{{{"post", "flat face"}, {"plate", "to"}}, flat, -8e-3, true, {29800, 25}},
                 {{{"disc to pole", "axial gap"}}, {}, 5e-5, true, {22800, 2.28}},
                 {{{"disc", "remanence"}}, {}, 1.2, false, {-51.4, 25.7}},
                 {{{"release", "turns"}}, {}, 300, false, {1e-3, 0}}};
  return list;
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("sensitivities are printed in N per 0.1 mm and per 1 %, with what moves and where") {
  const std::string text = sensitivity_text(invented_list(), 3);
  CHECK(has(text, "force of -18.126 N"));
  CHECK(has(text,
            "+2.98 N       per 0.1 mm  (0.08 %)      post: flat face = plate: to (z -8 mm, r 0 to 6 mm)\n"));
  CHECK(has(text,
            "+2.28 N       per 0.1 mm  (0.01 %)      disc to pole: axial gap 0.05 mm (the moving parts go "
            "away)\n"));
  CHECK(has(text, "-0.514 N      per 1 %     (50 %)        disc: remanence 1.2 T\n"));
  CHECK(has(text, "and 1 below 0.003 N"));  // the turns
  CHECK(!has(text,
             "turns"
             " 300"));
  CHECK(has(text, "more than 20 % is not resolved"));
  CHECK(has(text, "from order 3 to 4"));
}

TEST_CASE("sensitivities.csv holds every number, quoted where a place has commas") {
  CHECK(sensitivity_csv(invented_list()) ==
        "part,quantity,place,present,unit,per,change_N,change_between_orders_N\r\n"
        "post = plate,flat face = to,\"z -8 mm, r 0 to 6 mm\",-8,mm,0.1 mm,2.98,0.0025\r\n"
        "disc to pole,axial gap,,0.05,mm,0.1 mm,2.28,0.000228\r\n"
        "disc,remanence,,1.2,T,1 %,-0.514,0.257\r\n"
        "release,turns,,300,,1 %,1e-05,0\r\n");
}
