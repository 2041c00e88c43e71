// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/constants.hpp"
#include "tests/materials/every_law.hpp"
#include "tests/near.hpp"
#include "tests/read_csv.hpp"

using namespace coilpull;

namespace {

/// B of  H(B) + N (B/mu0 - H(B)) = H0  by Newton with bisection as its guard; the left side rises with B.
double flux_density_in_ellipsoid(const SoftLaw& law, double n, double h0) {
  double low = 0, high = mu0 * h0 / n + 10, b = 0.5 * high;
  for (int i = 0; i < 200; ++i) {
    const LawPoint at = evaluate(law, b);
    const double excess = (1 - n) * at.h + n * b / mu0 - h0;
    (excess > 0 ? high : low) = b;
    double next = b - excess / ((1 - n) * at.dh_db + n / mu0);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (next == b) break;
    b = next;
  }
  return b;
}

}  // namespace

TEST_CASE("the field inside an ellipsoid in a uniform field obeys H + N M(H) = H0 for every published law") {
  // data/published/nonlinear_ellipsoids.csv: exact scalar equation, ten digits printed, so 1e-9.
  const CsvFile table = read_csv("data/published/nonlinear_ellipsoids.csv");
  int rows_checked = 0;
  for (const ListedLaw& entry : laws_of_published_cases())
    for (std::size_t i = 0; i < table.records.size(); ++i) {
      if (table.text_at(i, "law") != entry.name) continue;
      INFO(entry.name << ", " << table.text_at(i, "body") << ", H0 = " << table.text_at(i, "H0_A_per_m"));
      const double b =
          flux_density_in_ellipsoid(entry.law, table.number_at(i, "N"), table.number_at(i, "H0_A_per_m"));
      const LawPoint at = evaluate(entry.law, b);
      CHECK(b == near(table.number_at(i, "B_in_T"), 1e-9));
      CHECK(at.h == near(table.number_at(i, "H_in_A_per_m"), 1e-9));
      CHECK(b - mu0 * at.h == near(table.number_at(i, "J_in_T"), 1e-9));
      ++rows_checked;
    }
  CHECK(rows_checked >= 60);
}
