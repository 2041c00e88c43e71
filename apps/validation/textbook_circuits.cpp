// SPDX-License-Identifier: GPL-3.0-or-later
// Worked examples with one loop of flux, by our own series circuit: same neglects, same numbers.
#include <cmath>

#include "apps/validation/families.hpp"
#include "materials/constants.hpp"
#include "solver/closed_form/series_circuit.hpp"

namespace coilpull {
namespace {

/// "0.80 A" or "0.30-0.31 T" as one number and what it leaves open.
struct Printed {
  std::string text;
  double bar = 0;  ///< beyond half a unit of the last digit
};

Printed printed_number(const std::string& cell) {
  const std::string first = cell.substr(0, cell.find_first_of(" ;"));
  const std::size_t dash = first.find('-', 1);
  if (dash == std::string::npos) return {first};
  const double from = std::stod(first), to = std::stod(first.substr(dash + 1));
  const std::string middle = std::to_string(0.5 * (from + to));
  return {middle.substr(0, 5), 0.5 * (to - from)};
}

class Examples {
public:
  Examples(Record& record, const Source* source, const CsvFile& table)
      : record_(record), source_(source), table_(table) {}

  /// @param starts  of the row's source  @param ours  in the row's unit
  void compare(const std::string& starts, double ours, const Cause& cause = {}) const {
    for (std::size_t i = 0; i < table_.records.size(); ++i) {
      const std::string& words = table_.text_at(i, "source");
      if (words.find(starts) == std::string::npos) continue;
      const Printed printed = printed_number(table_.text_at(i, "published"));
      const std::string what =
          words + ", " + table_.text_at(i, "data") + ": " + table_.text_at(i, "quantity");
      record_.by_formula(
          {source_, what, table_.text_at(i, "unit"), printed.text, printed.bar, Certainty::read}, ours,
          1e-12 * std::abs(ours), cause);
      return;
    }
    throw std::runtime_error("no example " + starts);
  }

private:
  Record& record_;
  const Source* source_;
  const CsvFile& table_;
};

/// What parts the printed pull on a plunger from that of its own circuit, whose first gap is the plunger's.
/// By virtual work F = -(NI)^2/(2 R^2) dR/dx. With one gap x in R the slope is 1/(mu0 A), with two it is
/// twice that, and so is the share of x in R.
Cause plunger_cause(const SeriesCircuit& once, double ours) {
  SeriesCircuit twice = once;
  twice.gaps.push_back(once.gaps.front());
  const double both = -2 * gap_pull(twice.gaps.front(), flux(twice));
  return {-ours, 0.5,
          "By virtual work F = -(NI)^2/(2 R^2) dR/dx. The companion prints (NI)^2/(mu0 W1 D R^2), the slope "
          "of two "
          "gaps x in series, with an R that holds one. One gap in both gives " +
              std::to_string(std::lround(ours)) + " N, two in both " + std::to_string(std::lround(both)) +
              " N; twice the former is the printed figure to all its digits. The book's figure, which would "
              "show how "
              "many gaps there are, was not at hand."};
}

void fitzgerald(const Examples& examples) {
  const double area = 9e-4;
  SeriesCircuit core{0, {{0.5e-3, area}}, {{0.3, area, LinearLaw{70000}}}, {}};
  examples.compare("ex. 1.1", ampere_turns_for(core, 1.0 * area) / 500);
  examples.compare("ex. 1.2", flux({1000 * 10, {{0.01, 0.2}, {0.01, 0.2}}, {}, {}}));
  core.iron[0].law = LinearLaw{1.0 / (mu0 * 11)};
  examples.compare("ex. 1.7", ampere_turns_for(core, 1.0 * area) / 500);
  examples.compare("ex. 1.9", flux({49e3 * 0.010, {{2e-3, 1}}, {}, {}}));

  const AirGap gap{2e-3, 2e-4};
  const double magnet_length = ampere_turns_for({0, {gap}, {}, {}}, 0.8 * gap.area) / 40e3;
  examples.compare("ex. 1.10", 1e6 * magnet_length * (0.8 * gap.area / 1.0));

  const AirGap face{3e-3, 0.045 * 0.035}, side{1e-3, 0.040 * 0.035};
  const double mmf = 940e3 * 8e-3;
  const AirGap magnet{8e-3 / 1.06, 0.040 * 0.035};  // its reluctance
  const SeriesCircuit plunger{mmf, {face, side, magnet}, {}, {}};
  const double pull = -gap_pull(face, flux(plunger));
  examples.compare("ex. 3.9", pull, plunger_cause(plunger, pull));
}

void sadiku(const Examples& examples) {
  const double section = pi * 0.01 * 0.01;
  examples.compare("ex. 8.14",
                   ampere_turns_for({0, {}, {{2 * pi * 0.1, section, LinearLaw{1000}}}, {}}, 0.5e-3) / 200);
  const double area = 40e-4, weight = 400 * 9.8, b = std::sqrt(mu0 * weight / area);
  const AirGap gap{0.1e-3, area};
  const double turns = ampere_turns_for({0, {gap, gap}, {{0.5, area, LinearLaw{3000}}}, {}}, b * area);
  // The share of the gaps in the loop, both of them counted, but the H l of one gap alone.
  const double iron = 0.5 / (3000 * mu0 * area);
  const double printed_way = (1 + iron / (2 * reluctance(gap))) * b * gap.length / mu0;
  examples.compare(
      "ex. 8.16", turns,
      {turns - printed_way, 0.5,
       "Ampere's law round the loop, two gaps of 0.1 mm and 0.5 m of iron at that flux density, takes twice "
       "the "
       "printed ampere-turns. The printed figure is met to all its digits when both gaps are counted for "
       "their "
       "share of the ampere-turns, 6/11, and then the H l of one gap is divided by that share."});
}

}  // namespace

void check_textbook_circuits(Record& record) {
  const std::string file = "magnet_pull_examples.csv";
  const Source* book =
      record.source("Fitzgerald, Electric Machinery",
                    "A. E. Fitzgerald, C. Kingsley, S. D. Umans, Electric Machinery: worked examples of "
                    "chapters 1 and 3, read in their companion; magnetic circuits without fringing",
                    file);
  const Source* elements =
      record.source("Sadiku, Elements of Electromagnetics",
                    "M. N. O. Sadiku, Elements of Electromagnetics: worked examples of chapter 8, "
                    "read in their companion; magnetic circuits without fringing",
                    file);
  const Source* maxwell =
      record.source("Maxwell, stress across a gap",
                    "Pull B^2/(2 mu0) on each unit of area (Maxwell, Treatise, art. 642)", file);
  const Source* thompson = record.source(
      "Thompson 1891, pull at 1 T", "S. P. Thompson, Lectures on the Electromagnet, 1891: pull of 1 T", file);
  const CsvFile table = read_published(file);
  fitzgerald({record, book, table});
  sadiku({record, elements, table});
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    if (table.text_at(i, "source").rfind("Maxwell pull", 0) != 0) continue;
    const double pull = gap_pull_by_flux_density(number_after(table.text_at(i, "data"), "density "), 1);
    record.by_formula(
        {maxwell, table.text_at(i, "data") + ": pressure", "Pa", table.text_at(i, "recomputed")}, pull,
        1e-14 * pull);
  }
  record.by_formula({thompson, "flux density 1 T: pressure", "kgf/cm2", "4.056", 0, Certainty::memory},
                    gap_pull_by_flux_density(1, 1e-4) / 9.80665, 1e-15);
}

}  // namespace coilpull
