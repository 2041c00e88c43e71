// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>

#include <cmath>

#include "apps/output/variants_csv.hpp"
#include "apps/output/variants_text.hpp"
#include "apps/variants/answers.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

/// Turns 100 and 200 crossed with gaps 1, 2, 3 mm and two steels; work = turns / 100 - 0.2 gap, wire = turns.
struct Made {
  VariantsFile file{"many.toml", "", EditableText("a = 1\n", "d.toml"), {}, {}, {}, {}, 0, 1, {}, 0, 1, {},
                    {},          {}};
  VariantPlan plan;
  VariantResults results;

  Made() {
    for (const char* path : {"coil.drive.turns", "gap_mm", "core.sleeve.material"}) {
      file.vary.push_back({path, {}, {}});
      plan.paths.push_back(path);
      plan.strays.push_back(false);
    }
    file.goals = {{"work_J", true}, {"wire_g", false}};
    for (const double turns : {100, 200})
      for (const double gap : {1, 2, 3})
        for (const char* steel : {"\"soft\"", "\"hard\""}) {
          const std::size_t number = plan.variants.size() + 1;
          plan.variants.push_back(
              {number,
               number,
               {std::to_string(static_cast<int>(turns)), std::to_string(static_cast<int>(gap)), steel}});
          const double work = turns / 100 - 0.2 * gap + (std::string(steel) == "\"hard\"" ? -0.02 : 0);
          results.push_back(
              VariantResult{"ok", "", "", "", {{"work_J", {work, 0.001}}, {"wire_g", {turns, 0}}}});
        }
  }
};

}  // namespace

TEST_CASE("the best is inside the limits, and the Pareto set has nothing that is beaten in every goal") {
  Made made;
  Answers answers = answers_of(made.file, made.plan, made.results);
  CHECK(answers.within.size() == 12);
  CHECK(made.plan.variants[answers.ranked[0].front()].values ==
        std::vector<std::string>{"200", "1", "\"soft\""});
  // the most work of each mass of wire: gap 1, soft
  CHECK(answers.pareto == std::vector<std::size_t>{0, 6});
  made.file.limits = {{"work_J", -1, 1.5}};
  answers = answers_of(made.file, made.plan, made.results);
  CHECK(answers.ranked[0].size() == 8);  // all of 100 turns, and gap 3 with 200 turns: 1.4 J and 1.38 J
  CHECK(made.results[answers.ranked[0].front()]->figures.at("work_J").value == near(1.4, 1e-12));
}

TEST_CASE("main effects of a goal that is made of straight lines are these lines") {
  const Made made;
  const MainEffects found = answers_of(made.file, made.plan, made.results).effects[0];
  CHECK(found.explained == near(1, 1e-12));
  REQUIRE(found.effects.size() == 4);
  CHECK(found.effects[0].path == "coil.drive.turns");
  CHECK(found.effects[0].over_range == near(1, 1e-9));
  CHECK(found.effects[0].per_unit == near(0.01, 1e-9));
  CHECK(found.effects[1].path == "gap_mm");
  CHECK(found.effects[1].per_unit == near(-0.2, 1e-9));
  CHECK(std::abs(found.effects[2].over_range) ==
        near(0.01, 1e-9));  // 0.02 between two steels: 0.01 from the mean
  CHECK(found.effects[2].over_range == near(-found.effects[3].over_range, 1e-9));
}

TEST_CASE("a quantile of evenly spaced values lies on their line") {
  CHECK(quantile({3, 1, 2, 0, 4}, 0.5) == 2);
  CHECK(quantile({3, 1, 2, 0, 4}, 0.05) == near(0.2, 1e-12));
  CHECK(quantile({7}, 0.95) == 7);
}

TEST_CASE("answers name the best, what cannot be told apart, and the effect of a tenth of a millimetre") {
  Made made;
  made.results[7]->figures["work_J"] = {1.7995,
                                        0.001};  // the hard one of 200 turns and gap 1, inside the bars
  const Answers answers = answers_of(made.file, made.plan, made.results);
  const std::string words = answers_text(made.file, made.plan, made.results, answers);
  CHECK(words.find("Most work_J; the bars leave no difference between the first and 1 others") !=
        std::string::npos);
  CHECK(words.find("per 0.1 mm") != std::string::npos);
  CHECK(words.find("turns = 200, gap_mm = 1, core.sleeve.material = soft") != std::string::npos);
}

TEST_CASE("variants that are not solved yet stand in the table as due") {
  Made made;
  made.results[3] = std::nullopt;
  const std::string csv = variants_csv(made.plan, made.results);
  CHECK(csv.find("variant,design,coil.drive.turns,gap_mm,core.sleeve.material,work_J,bar_of_work_J,wire_g,"
                 "status\r\n") == 0);
  CHECK(csv.find("\r\n4,4,100,2,hard,NaN,NaN,NaN,due\r\n") != std::string::npos);
  CHECK(answers_of(made.file, made.plan, made.results).within.size() == 11);
}
