// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/calibration/calibrate.hpp"

#include <cmath>
#include <random>

#include "apps/calibration/coverage.hpp"
#include "apps/calibration/measured_model.hpp"
#include "apps/device_file/bad_device.hpp"
#include "apps/output/calibration_text.hpp"
#include "solver/sweep/sweep.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

Eigen::VectorXd vector(std::initializer_list<double> values) {
  Eigen::VectorXd made(static_cast<Eigen::Index>(values.size()));
  std::copy(values.begin(), values.end(), made.begin());
  return made;
}

MeasuredNumbers numbers(const Eigen::VectorXd& value, double sigma) {
  return {value, Eigen::VectorXd::Constant(value.size(), sigma),
          std::vector<std::size_t>(static_cast<std::size_t>(value.size()), 0)};
}

/// Invented: 12 forces that bend with a factor a, a shift b and a factor c.
Response invented(const Eigen::VectorXd& p) {
  Response response{Eigen::VectorXd(12), Eigen::VectorXd::Zero(12)};
  for (int i = 0; i < 12; ++i) {
    const double x = 0.5 * i + 1e3 * p[1];
    response.value[i] =
        p[0] * p[0] * std::exp(-0.3 * x) + 2 * p[0] * std::sin(x) + p[2] * p[2] * p[2] * 0.2 * x;
  }
  return response;
}

/// A thin sleeve that the winding fills, and a magnet in its mouth: all three parameters show.
Device filled_sleeve() {
  Device device;
  device.title = "filled sleeve";
  device.cores = {{"sleeve", rectangle(5.5e-3, 6.5e-3, -14e-3, 14e-3), FroehlichLaw{2.0, 300}, "test"}};
  device.coils = {{"drive", rectangle(7.5e-3, 12.5e-3, -12e-3, 12e-3), 500, "drive", 1, {}}};
  device.magnets = {{"plunger", rectangle(0, 4.5e-3, -30e-3, -20e-3), {0, 1.2, 1.05}, "test"}};
  device.moving = {"plunger"};
  device.circuits = {"drive"};
  device.displacements = {6e-3};
  device.currents_A = {{0}};
  device.tolerance = 0.01;
  return device;
}

MeasuredFile places(const std::vector<double>& displacements_mm, const std::vector<double>& currents_A,
                    double sigma_N) {
  MeasuredFile file{"measured.csv", {{ColumnKind::force, 0, "force_N"}}, {}, {}};
  for (const double x : displacements_mm)
    for (const double i : currents_A)
      file.rows.push_back({file.rows.size() + 2, 1e-3 * x, {i}, {MeasuredNumber{0, sigma_N}}});
  return file;
}

ForceTable solved(const Device& device, bool slopes) {
  SweepOptions options;
  options.threads = 1;
  options.slopes = slopes;
  options.audit = false;
  return sweep(device, options);
}

Model finite_elements(const MeasuredModel& model) {
  return [&model](const Eigen::VectorXd& values) { return model.at(values); };
}

/// Of 100 trials with seeded noise, how many lie within their stated half width, parameter by parameter.
struct Tally {
  std::vector<int> within, within_half;
};

Tally trials(const ResponseSurface& surface, const Eigen::VectorXd& truth_u, double noise, double stated) {
  const auto count = static_cast<std::size_t>(truth_u.size());
  Tally tally{std::vector<int>(count), std::vector<int>(count)};
  const Eigen::VectorXd exact = surface.at(truth_u), truth = surface.parameters(truth_u);
  for (unsigned seed = 1; seed <= 100; ++seed) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal(0, noise);
    Eigen::VectorXd noisy = exact;
    for (double& value : noisy) value += normal(random);
    const Estimate made = estimate(surface, numbers(noisy, stated), 4);
    for (std::size_t k = 0; k < count; ++k) {
      const auto i = static_cast<Eigen::Index>(k);
      const double miss = std::abs(made.value[i] - truth[i]);
      tally.within[k] += miss <= made.half_width[i];
      tally.within_half[k] += miss <= 0.5 * made.half_width[i];
    }
  }
  return tally;
}

}  // namespace

TEST_CASE(
    "calibration recovers known parameters from noisy data within the stated uncertainty in 95 of 100 "
    "trials") {
  // The response surface comes from finite elements once, ten tables over the three parameters; the 100
  // trials, which ask about noise and not about the field, take truth and fit from this same surface.
  const MeasuredFile file = places({5, 8, 12, 15, 18}, {-8, 0, 8}, 1);
  const MeasuredModel model(filled_sleeve(), file,
                            {{Parameter::Kind::remanence, "plunger"},
                             {Parameter::Kind::offset, ""},
                             {Parameter::Kind::saturation, "sleeve"}},
                            solved);
  const ResponseSurface surface = response_surface(finite_elements(model), model.start(), model.steps());
  REQUIRE(surface.trouble.empty());
  const double noise = 0.01 * surface.at_centre.cwiseAbs().maxCoeff();
  for (const double stated : {noise, std::nan("")}) {
    const Tally tally = trials(surface, vector({-0.7, 0.5, 0.4}), noise, stated);
    for (std::size_t k = 0; k < 3; ++k) {
      CAPTURE(k);
      CHECK(tally.within[k] >= 95);
      // And it is no wider than it must be: half of it is 1.2 standard deviations, which hold 77 of 100.
      CHECK(tally.within_half[k] <= 90);
    }
  }
}

TEST_CASE("a model that bends is followed to where it fits: exact data give exact parameters") {
  const Eigen::VectorXd truth = vector({0.8, 0.45e-3, 1.17});
  const Calibration made = calibrate(invented, vector({1, 0, 1}), vector({0.05, 0.1e-3, 0.05}),
                                     numbers(invented(truth).value, 0.01));
  CHECK(made.settled);
  CHECK(made.rounds > 1);
  for (int k = 0; k < 3; ++k)
    CHECK(std::abs(made.estimate.value[k] - truth[k]) < 0.2 * made.estimate.half_width[k]);
  CHECK(made.estimate.misfit < 0.3);
  CHECK(made.before == invented(vector({1, 0, 1})).value);
}

TEST_CASE("finite elements: coil and magnet alone give back the remanence that their forces were made with") {
  Device device = filled_sleeve();
  device.cores.clear();
  const MeasuredFile blank = places({5, 12, 18}, {-4, 4}, 0.01);
  const std::vector<Parameter> remanence = {{Parameter::Kind::remanence, "plunger"}};
  const MeasuredModel maker(device, blank, remanence, solved);
  const Eigen::VectorXd made_with_091 = maker.at(vector({0.91})).value;
  MeasuredFile file = blank;
  for (std::size_t i = 0; i < file.rows.size(); ++i)
    file.rows[i].results[0]->value = made_with_091[static_cast<Eigen::Index>(i)];
  const MeasuredModel model(device, file, remanence, solved);
  const Calibration made = calibrate(finite_elements(model), model.start(), model.steps(), model.numbers());
  CHECK(made.settled);
  CHECK(made.estimate.value[0] ==
        near(0.91, 1e-3));  // the force is linear in it; meshes differ within 1 % bars
  const std::string text = calibration_text(made, model, file, device);
  CHECK(text.find("remanence of plunger: 0.91") != std::string::npos);
  CHECK(text.find("6 numbers of measured.csv") != std::string::npos);
}

TEST_CASE(
    "two parameters of which only a combination shows are called inseparable, with what would separate "
    "them") {
  const Model product = [](const Eigen::VectorXd& p) {
    Response response{Eigen::VectorXd(6), Eigen::VectorXd::Zero(6)};
    for (int i = 0; i < 6; ++i) response.value[i] = (i + 1) * p[0] * (1 + 1e3 * p[1]);
    return response;
  };
  const Eigen::VectorXd measured = product(vector({1.05, 0})).value;
  const Calibration made = calibrate(product, vector({1, 0}), vector({0.05, 0.1e-3}), numbers(measured, 0.1));
  REQUIRE(made.estimate.confused.size() == 1);
  CHECK(made.estimate.confused[0].correlation == -1);
  CHECK(std::isnan(made.estimate.half_width[0]));
  CHECK(std::isnan(made.estimate.half_width[1]));

  const MeasuredFile file = places({1, 2, 3}, {0, 1}, 0.1);
  const MeasuredModel model(filled_sleeve(), file,
                            {{Parameter::Kind::remanence, "plunger"}, {Parameter::Kind::offset, ""}}, solved);
  const std::string text = calibration_text(made, model, file, filled_sleeve());
  CAPTURE(text);
  CHECK(text.find("remanence of plunger: cannot be told from these measurements") != std::string::npos);
  CHECK(text.find("These data cannot separate remanence of plunger and offset (correlation -1)") !=
        std::string::npos);
  CHECK(text.find("B_z beside the magnet alone tells the remanence by itself") != std::string::npos);
}

TEST_CASE("nearly inseparable parameters keep their numbers and are called so above a correlation of 0.95") {
  // near -1.
  const auto nearly = [](double apart) {
    return Model([apart](const Eigen::VectorXd& p) {
      Response response{Eigen::VectorXd(8), Eigen::VectorXd::Zero(8)};
      for (int i = 0; i < 8; ++i) response.value[i] = p[0] + p[1] * (1 + (i % 2 == 0 ? apart : -apart));
      return response;
    });
  };
  for (const double apart : {0.05, 1.0}) {
    const Model model = nearly(apart);
    const Calibration made =
        calibrate(model, vector({1, 1}), vector({0.1, 0.1}), numbers(model(vector({1, 1})).value, 0.01));
    // J'J = 8 [1 1; 1 1 + apart^2], so that the correlation is -1 / sqrt(1 + apart^2)
    CHECK(made.estimate.correlation(0, 1) == near(-1 / std::sqrt(1 + apart * apart), 1e-9));
    CHECK(made.estimate.confused.size() == (apart < 0.1 ? 1 : 0));
    CHECK(made.estimate.half_width[0] ==
          near(coverage_factor(2) * 0.01 / std::sqrt(8) * std::sqrt(1 + 1 / (apart * apart)), 1e-9));
  }
}

TEST_CASE("a parameter that changes nothing is called so, and the others are still told") {
  const Model idle = [](const Eigen::VectorXd& p) {
    Response response{Eigen::VectorXd(5), Eigen::VectorXd::Zero(5)};
    for (int i = 0; i < 5; ++i) response.value[i] = i * p[0] + 1e-9 * p[1];
    return response;
  };
  const Calibration made =
      calibrate(idle, vector({1, 1}), vector({0.05, 0.05}), numbers(idle(vector({1.02, 1})).value, 0.1));
  CHECK(made.estimate.without_effect == std::vector<std::size_t>{1});
  CHECK(made.estimate.value[0] == near(1.02, 1e-6));
  CHECK(std::isnan(made.estimate.half_width[1]));
}

TEST_CASE("a misfit that noise does not make widens the uncertainty and is told") {
  Eigen::VectorXd measured = invented(vector({1, 0, 1})).value;
  for (int i = 0; i < 12; ++i) measured[i] += i % 2 == 0 ? 0.3 : -0.3;
  const Calibration made =
      calibrate(invented, vector({1, 0, 1}), vector({0.05, 0.1e-3, 0.05}), numbers(measured, 0.05));
  CHECK(made.estimate.widened == made.estimate.misfit);
  CHECK(made.estimate.misfit > 5);
}

TEST_CASE("coverage factors are the quantiles of the tables") {
  CHECK(coverage_factor(1) == near(1.959964, 1e-6));  // NIST/SEMATECH e-Handbook, 1.3.6.7.1: 1.96
  CHECK(coverage_factor(1, 10) ==
        near(2.228139, 1e-6));  // the same, 1.3.6.7.2: 2.228 for 10 degrees of freedom
  CHECK(largest_likely_sum(10) == near(23.20925, 1e-6));  // the same, 1.3.6.7.4: 23.209
}

TEST_CASE("what is asked to be fitted is read with its part, and what cannot be is refused in words") {
  const Device device = filled_sleeve();
  const std::vector<Parameter> read =
      read_parameters({"remanence", "offset", "saturation=sleeve"}, device, "d.toml");
  CHECK(words_for(read[0]) == "remanence of plunger");
  CHECK(words_for(read[2]) == "saturation of sleeve");
  const auto trouble = [&](const std::vector<std::string>& given) {
    try {
      read_parameters(given, device, "d.toml");
    } catch (const BadDevice& bad) {
      return std::string(bad.what());
    }
    return std::string("none");
  };
  CHECK(trouble({"gap"}) ==
        "--fit gap: nothing of that name can be fitted.\n  Allowed: remanence, remanence=MAGNET, offset, "
        "saturation, saturation=CORE.");
  CHECK(trouble({"saturation=sleve"}) ==
        "--fit saturation=sleve: no core is called sleve.\n  Did you mean \"sleeve\"?");
  CHECK(trouble({"offset", "offset"}).find("--fit offset: is asked for twice.") == 0);
  CHECK_THROWS_WITH_AS(MeasuredModel(device, places({1}, {0}, 0.1), read, solved),
                       "measured.csv: 1 measured numbers cannot tell 3 parameters; needed are 4.\n  Measure "
                       "more, or fit less.",
                       BadCsv);
}
