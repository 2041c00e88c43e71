// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/judgement/judge.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "apps/judgement/likely_cause.hpp"
#include "apps/judgement/smooth_line.hpp"
#include "apps/output/csv_table.hpp"
#include "apps/output/judgement_picture.hpp"
#include "apps/output/judgement_text.hpp"
#include "tests/apps/hand_made_table.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

const KnownNames drive = {{"drive"}, {std::nullopt}};

/// A smooth invented force on 0 to 10 mm by 0.5 mm, -2 to 2 A by 0.5 A, bars of 1 mN.
double smooth_force(double x_mm, double current_A) {
  return 5 * std::sin(0.4 * x_mm) + current_A * std::cos(0.3 * x_mm) + 0.1 * current_A * current_A;
}

ForceGrid smooth_grid() {
  ForceTableFile table{"force_table.csv", {"drive"}, {}, {}, {}};
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (double current_A = -2; current_A <= 2; current_A += 0.5) table.currents_A.push_back({current_A});
  for (double x_mm = 0; x_mm <= 10; x_mm += 0.5) {
    table.displacements.push_back(1e-3 * x_mm);
    for (const auto& set : table.currents_A)
      table.rows.push_back({smooth_force(x_mm, set[0]), 1e-3, nan, nan});
  }
  return ForceGrid(std::move(table));
}

/// 40 points between the rows, away from the ends.
MeasuredFile points(const std::function<double(double x_mm, double current_A)>& force) {
  MeasuredFile mine{"mine.csv", {{ColumnKind::force, 0, "force_N"}}, {}, {}};
  for (std::size_t i = 0; i < 40; ++i) {
    const double x_mm = 1.03 + 0.2 * static_cast<double>(i),
                 current_A = -1.7 + 0.9 * static_cast<double>(i % 4);
    mine.rows.push_back({i + 2, 1e-3 * x_mm, {current_A}, {MeasuredNumber{force(x_mm, current_A), {}}}});
  }
  return mine;
}

}  // namespace

TEST_CASE("between rows a smooth function is read to its stated error, which is no empty promise") {
  // Even nodes and nodes in a ratio of 1.5, as a table towards contact has them.
  std::vector<double> even, graded;
  for (int i = 0; i <= 12; ++i) even.push_back(0.5 * i), graded.push_back(0.05 * std::pow(1.5, i));
  const std::vector<std::function<double(double)>> functions = {
      [](double x) { return std::sin(x); }, [](double x) { return std::exp(-x); },
      [](double x) { return 1 / ((x + 1) * (x + 1)); }};
  for (const auto& nodes : {even, graded})
    for (const auto& f : functions) {
      std::vector<double> values;
      for (const double x : nodes) values.push_back(f(x));
      const SmoothLine line(nodes, values);
      double worst = 0, worst_promise = 0;
      for (int k = 1; k < 400; ++k) {
        const double x = nodes.front() + k / 400.0 * (nodes.back() - nodes.front());
        const Measured read = *line.at(x);
        CAPTURE(x);
        CHECK(std::abs(read.value - f(x)) <= read.error + 1e-15);
        worst = std::max(worst, std::abs(read.value - f(x)));
        worst_promise = std::max(worst_promise, read.error);
      }
      CHECK(worst_promise < 20 * worst);
    }
}

TEST_CASE("a line is exact at its nodes, tells nothing outside them, and nothing between two alone") {
  const SmoothLine line({0, 1, 3}, {5, 6, 2});
  CHECK(line.at(1)->value == 6);
  CHECK(line.at(1)->error == 0);
  CHECK_FALSE(line.at(-0.1).has_value());
  CHECK_FALSE(line.at(3.1).has_value());
  CHECK_FALSE(SmoothLine({0, 1}, {5, 6}).at(0.5).has_value());
}

TEST_CASE("forces read off the table itself lie inside its bars everywhere") {
  const ForceGrid grid = smooth_grid();
  const Judgement judgement = judge(grid, points(smooth_force));
  REQUIRE(judgement.judged().size() == 40);
  for (const JudgedPoint* point : judgement.judged()) {
    CHECK(point->verdict == AgainstBar::inside);
    CHECK(point->table->between_rows_N <
          0.02);  // 0.25 * 4^4 * 5 N * (0.4/mm * 0.5 mm)^4 / 24 along x, less along I
  }
  CHECK_FALSE(likely_cause(judgement, grid).has_value());
}

TEST_CASE("a factor, a shift and a constant are each told apart and told right") {
  const ForceGrid grid = smooth_grid();
  const auto cause_of = [&](const auto& force) { return *likely_cause(judge(grid, points(force)), grid); };
  const LikelyCause factor = cause_of([](double x, double i) { return 1.08 * smooth_force(x, i); });
  CHECK(factor.kind == LikelyCause::Kind::factor);
  CHECK(factor.amount ==
        near(1.08, 1e-3));  // what reading between rows costs, see above, shared by 40 points
  const LikelyCause shift = cause_of([](double x, double i) { return smooth_force(x + 0.3, i); });
  CHECK(shift.kind == LikelyCause::Kind::displacement);
  CHECK(shift.amount == near(0.3e-3, 1e-9));  // one of the shifts that are tried
  const LikelyCause constant = cause_of([](double x, double i) { return smooth_force(x, i) - 0.5; });
  CHECK(constant.kind == LikelyCause::Kind::constant);
  CHECK(constant.amount == near(-0.5, 1e-2));
  const LikelyCause turned = cause_of([](double x, double i) { return -smooth_force(x, i); });
  CHECK(turned.amount == near(-1, 1e-3));
}

TEST_CASE(
    "forces high at one sense of current and low at the other have no single cause, and the words say so") {
  const ForceGrid grid = smooth_grid();
  const MeasuredFile mine =
      points([](double x, double i) { return (i > 0 ? 1.2 : 0.8) * smooth_force(x, i); });
  const Judgement judgement = judge(grid, mine);
  const auto cause = likely_cause(judgement, grid);
  CHECK_FALSE(cause.has_value());
  CHECK(judgement_text(judgement, grid.table(), mine, cause).find("No one factor, shift or constant") !=
        std::string::npos);
}

TEST_CASE("the words tell the stretch where the bar is left, the factor, and what lies outside the table") {
  const ForceGrid grid(read_force_table(read_csv_text(csv_text(plunger_table()), "force_table.csv")));
  CHECK(grid.table().peak_force_N() == 7);
  const MeasuredFile mine = read_measured(
      read_csv_text(
          "displacement_mm;current_A;force_N;note\n0;1;7;a\n1;1;5;b\n2;1;3,5;c\n3;1;2;d\n4;1;-1;e\n9;1;0;f\n"
          "1,5;0,5;2,5;g\n",
          "mine.csv"),
      drive);
  const Judgement judgement = judge(grid, mine);
  REQUIRE(judgement.points.size() == 7);
  CHECK(judgement.points[5].verdict == AgainstBar::not_judged);
  CHECK(judgement.points[6].verdict ==
        AgainstBar::inside);  // 2 (2 - 1.5) + 3 * 0.5, between the rows in both
  const std::string text = judgement_text(judgement, grid.table(), mine, likely_cause(judgement, grid));
  CAPTURE(text);
  CHECK(text.find("7 points") != std::string::npos);
  CHECK(text.find("Columns not read: note") != std::string::npos);
  CHECK(text.find("Largest: +1 N (14 %, 100 bars) at 3 mm, drive = 1 A, line 5") != std::string::npos);
  CHECK(text.find("drive = 1 A: 2 to 3 mm (+1 N at 3 mm)") != std::string::npos);
  CHECK(text.find("line 7, 9 mm, drive = 1 A: outside the table's displacements, 0 to 4 mm") !=
        std::string::npos);
  const std::string csv = judgement_csv(judgement, grid.table().circuits);
  CHECK(csv.find("\r\n5,3,1,2,0,1,1,0.01,0,NaN,NaN,outside,,\"\"\r\n") != std::string::npos);
}

TEST_CASE("a person's own uncertainty widens the bar by twice itself") {
  const ForceGrid grid(read_force_table(read_csv_text(csv_text(plunger_table()), "force_table.csv")));
  const auto verdict = [&](const std::string& sigma) {
    const CsvFile file =
        read_csv_text("displacement_mm,current_A,force_N,force_uncertainty_N\n1,0,2.5," + sigma + "\n", "m");
    return judge(grid, read_measured(file, drive)).points[0].verdict;
  };
  CHECK(verdict("") == AgainstBar::outside);
  CHECK(verdict("0.24") == AgainstBar::outside);  // 0.01 + 0.48 < 0.5
  CHECK(verdict("0.246") == AgainstBar::inside);
}

TEST_CASE("a spread in the table is told beside the bar") {
  const std::string table =
      "displacement_mm,force_N,force_numerical_error_N,force_low_N,force_high_N\n0,1,0.1,0.5,1.5\n1,2,0.1,1."
      "5,2.5\n";
  const ForceGrid grid(read_force_table(read_csv_text(table, "t.csv")));
  const CsvFile file = read_csv_text("displacement_mm,force_N\n0,1.3\n1,2.7\n", "m");
  const Judgement judgement = judge(grid, read_measured(file, {}));
  CHECK(judgement.points[0].verdict == AgainstBar::outside);
  CHECK(*judgement.points[0].inside_spread());
  CHECK_FALSE(*judgement.points[1].inside_spread());
}

TEST_CASE("unusable rows of a table are not read between, and what is no table is refused") {
  const ForceGrid grid(read_force_table(read_csv_text(csv_text(plunger_table_with_a_lost_row()), "t.csv")));
  CHECK(grid.at(4e-3, {1}).why == "outside the table's displacements, 0 to 3 mm");
  CHECK_THROWS_WITH_AS(read_force_table(read_csv_text("a,b\n1,2\n", "t.csv")),
                       "t.csv:1: this is no force table: it has no column displacement_mm.\n  Name the "
                       "force_table.csv that `coilpull table` wrote.",
                       BadCsv);
}

TEST_CASE("sets of currents that are no full grid are read along the lines they form") {
  // Force = 1 + 2 a + 4 b at sets (0,0), (+-1,0), (0,+-1): no set has both currents on.
  ForceTableFile table{"t.csv", {"a", "b"}, {0, 1e-3}, {{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}}, {}};
  for (int x = 0; x < 2; ++x)
    for (const auto& set : table.currents_A)
      table.rows.push_back({1 + 2 * set[0] + 4 * set[1], 0.1, NAN, NAN});
  const ForceGrid grid(std::move(table));
  CHECK(grid.at(0, {0.5, 0}).force->force_N == near(2, 1e-14));
  CHECK(grid.at(0, {0, -0.5}).force->force_N == near(-1, 1e-14));
  CHECK_FALSE(grid.at(0, {0.5, 0.5}).force.has_value());
  CHECK_FALSE(grid.at(0.5e-3, {0, 0}).force.has_value());  // between two displacements alone
}

TEST_CASE("the pictures hold a curve and its dots for each set of currents, and their ratio") {
  const ForceGrid grid = smooth_grid();
  const Judgement judgement =
      judge(grid, points([](double x, double i) { return 1.1 * smooth_force(x, i); }));
  const CurvesPicture both = judgement_picture(judgement, grid, "mine");
  REQUIRE(both.curves.size() == 8);  // four currents
  CHECK_FALSE(both.curves[0].dashed);
  CHECK(both.curves[1].dashed);
  CHECK(both.curves[1].points.size() == 20);  // each dot ends with a hole
  const CurvesPicture ratio = judgement_ratio_picture(judgement, grid, "mine");
  REQUIRE(ratio.curves.size() == 4);
  for (const Curve& curve : ratio.curves)
    for (const CurvePoint& point : curve.points)
      if (std::isfinite(point.y)) CHECK(std::abs(point.y - 1.1) <= 1.1 * point.bar);
}

TEST_CASE(
    "of many points the picture shows some thousand a curve, among them the one farthest from the table") {
  const ForceGrid grid = smooth_grid();
  MeasuredFile mine{"mine.csv", {{ColumnKind::force, 0, "force_N"}}, {}, {}};
  for (std::size_t i = 0; i < 9000; ++i) {
    const double x_mm = 1 + 8e-4 * static_cast<double>(i), wrong = i == 4321 ? 3 : 0;
    mine.rows.push_back({i + 2, 1e-3 * x_mm, {1.0}, {MeasuredNumber{smooth_force(x_mm, 1) + wrong, {}}}});
  }
  const CurvesPicture picture = judgement_picture(judge(grid, mine), grid, "mine");
  REQUIRE(picture.curves.size() == 2);
  const std::vector<CurvePoint>& dots = picture.curves[1].points;
  CHECK(dots.size() == 4000);  // each followed by a hole
  const double farthest_mm = 1 + 8e-4 * 4321, force_N = smooth_force(farthest_mm, 1) + 3;
  CHECK(std::any_of(dots.begin(), dots.end(), [&](const CurvePoint& dot) {
    return std::abs(dot.x - farthest_mm) < 1e-9 && std::abs(dot.y - force_N) < 1e-9;
  }));
}
