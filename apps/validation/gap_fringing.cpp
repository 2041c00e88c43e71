// SPDX-License-Identifier: GPL-3.0-or-later
// What one-dimensional circuits neglect at a gap. Beside an edge that faces an edge the lines are near half
// circles, beside an edge that faces a wall near quarter circles: over a length p they add about
// mu0 c p ln(L/g) to the permeance mu0 A/g of the faces and c p g/A to the pull, c = 1/pi and 2/pi, L the
// room beside the edge. Our own estimate, right for short gaps: a third of it is allowed either way.
#include <cmath>

#include "apps/output/number_text.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/recompute.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double window = 0.010;  ///< room beside the edges [m]

Outline closed(const std::vector<Point>& corners) {
  Outline outline;
  for (std::size_t i = 0; i < corners.size(); ++i)
    outline.edges.push_back({corners[i], corners[(i + 1) % corners.size()]});
  return outline;
}

struct Pot {
  double post = 0.010, rim_from = 0.020, rim_to = std::sqrt(5e-4), depth = 0.015, base = 0.006;

  Device device() const {
    const Outline pot = closed({{0, -depth - base},
                                {rim_to, -depth - base},
                                {rim_to, 0},
                                {rim_from, 0},
                                {rim_from, -depth},
                                {post, -depth},
                                {post, 0},
                                {0, 0}});
    Device device = in_air({coil_of("coil", {post + 0.001, rim_from - 0.001, 0.001 - depth, -0.004}, 1)});
    device.cores = {{"pot", pot, LinearLaw{1e6}, "published case"},
                    {"keeper", rectangle(0, rim_to, 0, base), LinearLaw{1e6}, "published case"}};
    device.moving = {"keeper"};
    return device;
  }

  /// Pull with the fringing of all edges over the pull without.
  double with_fringing(double gap) const {
    const double area = pi * post * post, log = std::log(window / gap);
    // c p g / A of the post, and of the rim, whose outer edge alone faces an edge: the keeper's
    const double x1 = 2 / pi * 2 * pi * post * gap / area;
    const double x2 = (2 / pi * 2 * pi * rim_from + 1 / pi * 2 * pi * rim_to) * gap / area;
    const double p1 = 1 + x1 * log, p2 = 1 + x2 * log;
    return 2 * (p2 * p2 * (1 + x1) + p1 * p1 * (1 + x2)) / ((p1 + p2) * (p1 + p2));
  }
};

void pot_magnet(Record& record) {
  const std::string file = "pot_magnet_pulls.csv";
  const Source* source = record.source(
      "one-dimensional gap circuit",
      "Textbook pull of a pot magnet on its keeper (Hopkinson 1886; Del Toro, Fitzgerald and others): two "
      "gaps in series, even field, no fringing, no leakage",
      file);
  const CsvFile table = read_published(file);
  const Pot pot;
  BarredPath path(3);
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double gap = table.number_at(i, "gap_over_post_radius") * pot.post,
                 theirs = table.number_at(i, "F_N");
    const Measured force = path.values(pot.device(), gap, {{100}}, [](const std::vector<Solved>& solved) {
      return std::vector<double>{-solved[0].force_N};
    })[0];
    const double shift = theirs * (pot.with_fringing(gap) - 1);
    record.by_finite_elements(
        {source, "gap of " + table.text_at(i, "gap_over_post_radius") + " post radii: pull", "N",
         table.text_at(i, "F_N")},
        force,
        {shift, shift / 3,
         "The circuit neglects the fringing beside the gaps: the pull is " +
             rounded(100 * (force.value / theirs - 1), 3) + " % stronger, by our estimate of the edges " +
             rounded(100 * shift / theirs, 3) + " %."});
  }
}

/// The core of an example as a round one: a post of that face and gap in a closed shell. Here the flux itself
/// counts, and with it the constant of a right-angled edge over the middle plane, 1 + ln(pi h / (4 g/2)), h
/// its height (conformal mapping: Balakrishnan, Joines and Wilson, IEEE Trans. Power Electron. 12 (1997) 654,
/// from memory); beyond the ends of the coil nothing drives it.
void round_core(Record& record) {
  const std::string file = "magnet_pull_examples.csv";
  const Source* source =
      record.source("Fitzgerald, Electric Machinery",
                    "A. E. Fitzgerald, C. Kingsley, S. D. Umans, Electric Machinery, ex. 1.1, as a "
                    "round core of the same face, gap and permeability in a closed shell",
                    file);
  const double area = 9e-4, a = std::sqrt(area / pi), gap = 0.5e-3, half = 0.030, wall = 0.012;
  const double out = a + 0.020, coil_half = 0.010;
  const Outline iron = closed({{0, -half - wall},
                               {out + wall, -half - wall},
                               {out + wall, half + wall},
                               {0, half + wall},
                               {0, gap / 2},
                               {a, gap / 2},
                               {a, half},
                               {out, half},
                               {out, -half},
                               {a, -half},
                               {a, -gap / 2},
                               {0, -gap / 2}});
  Device device = in_air({coil_of("coil", {a + 0.006, out - 0.006, -coil_half, coil_half}, 500)});
  device.cores = {{"iron", iron, LinearLaw{70000}, "published case"}};
  device.sensors = {{"gap", {0, 0}}};
  const Measured current = BarredPath(3).values(device, 0, {{1}}, [&](const std::vector<Solved>& solved) {
    return std::vector<double>{0.5 * a / solved[0].a_phi({a, 0.8 * half})};  // mean B of the post: 2 A / a
  })[0];
  const double of_gap = gap / mu0 / 500,
               fringing = 2 * gap / (pi * a) * (1 + std::log(pi * coil_half / (2 * gap)));
  const double shift = of_gap / (1 + fringing) - of_gap;
  record.by_finite_elements(
      {source, "ex. 1.1 as a round core in a closed shell: current for 1.0 T in the core", "A", "0.80", 0,
       Certainty::read},
      current,
      {shift, -shift / 3,
       "The circuit neglects the fringing beside the gap, which carries " +
           rounded(100 * (of_gap / current.value - 1), 2) + " % more flux; by our estimate of the edge " +
           rounded(100 * fringing, 2) + " %."});
}

}  // namespace

void check_gap_fringing(Record& record) {
  pot_magnet(record);
  round_core(record);
}

}  // namespace coilpull
