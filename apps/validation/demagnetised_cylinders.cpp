// SPDX-License-Identifier: GPL-3.0-or-later
// H0/<M> = N + 1/chi with the mean of M over the volume (Nm) or over the middle plane (Nf). A magnet of
// recoil permeability above 1 is such a body in its own field: M mu0/Br = 1 + (b - 1) chi/mu_rec, b = B/Br.
#include <cmath>

#include "apps/validation/balls.hpp"
#include "apps/validation/families.hpp"
#include "apps/validation/mean_flux_density.hpp"
#include "apps/validation/recompute.hpp"
#include "materials/constants.hpp"

namespace coilpull {
namespace {

constexpr double radius = 0.010, h0 = 1000;  // [m], [A/m]
constexpr double endless = 1e6;              ///< stands for infinite susceptibility: N changes by 1e-7

Resolution fine_at_edges() {
  Resolution fine;
  fine.fineness = 1.5;
  fine.at_corner = 0.01;
  return fine;
}

double disc_mean(const Solved& solved, double r) { return 2 * solved.a_phi({r, 0}) / r; }

void compare(Record& record, const Source* source, const CsvFile& table, std::size_t row, BarredPath& path) {
  const std::string& chi_words = table.text_at(row, "chi");
  const std::string words = "length/diameter " + table.text_at(row, "gamma") + ", chi " + chi_words + ": ";
  const Published of_volume{source, words + "Nm", "1", table.text_at(row, "Nm"),
                            table.number_at(row, "est_err_Nm")};
  const Published of_plane{source, words + "Nf", "1", table.text_at(row, "Nf"),
                           table.number_at(row, "est_err_Nf")};
  if (chi_words == "-1") {
    for (const Published& one : {of_volume, of_plane})
      record.not_recomputed(one, "A body that lets no B in has no B-H law here: permeability is at least 1.");
    return;
  }
  const double chi = chi_words == "inf" ? endless : table.number_at(row, "chi");
  const double half = radius * table.number_at(row, "gamma"), m_per_b = chi / (mu0 * (1 + chi));
  const auto factors = [&](const std::vector<Solved>& solved) {
    return std::vector<double>{h0 / (m_per_b * mean_b_z(*solved[0].field, 0)) - 1 / chi,
                               h0 / (m_per_b * disc_mean(solved[0], radius)) - 1 / chi};
  };
  const std::vector<Measured> found = path.values(
      core_in_field(rectangle(0, radius, -half, half), LinearLaw{1 + chi}, h0, half), 0, {{}}, factors);
  record.by_finite_elements(of_volume, found[0]);
  record.by_finite_elements(of_plane, found[1]);
}

}  // namespace

void check_demagnetised_cylinders(Record& record) {
  const std::string file = "demag_cylinder_vs_chi.csv";
  const Source* source =
      record.source("demagnetised cylinders",
                    "Demagnetising factors of cylinders of constant susceptibility, as defined by "
                    "D.-X. Chen, J. A. Brug, R. B. Goldfarb, IEEE Trans. Magn. 27 (1991) 3601, "
                    "computed by a boundary integral method of its own, with its error estimates",
                    file);
  const CsvFile table = read_published(file);
  BarredPath path(3, fine_at_edges());
  for (std::size_t i = 0; i < table.records.size(); ++i) compare(record, source, table, i, path);
}

void check_recoil_moments(Record& record) {
  const std::string file = "magnet_recoil_moment.csv";
  const Source* source =
      record.source("magnets of recoil permeability above 1",
                    "Moment and mid-plane magnetisation of cylinder magnets alone in air, by a "
                    "boundary integral method of its own",
                    file);
  const CsvFile table = read_published(file);
  const double remanence_T = 1.2;
  BarredPath path(3, {2.0});
  for (std::size_t i = 0; i < table.records.size(); ++i) {
    const double half = table.number_at(i, "gamma") * radius, recoil = table.number_at(i, "mu_rec");
    const auto magnetisation = [&](double b) { return 1 + (b / remanence_T - 1) * (recoil - 1) / recoil; };
    const auto both = [&](const std::vector<Solved>& solved) {
      return std::vector<double>{magnetisation(mean_b_z(*solved[0].field, 0)),
                                 magnetisation(disc_mean(solved[0], radius))};
    };
    const std::vector<Measured> found = path.values(
        in_air({}, {magnet_of("magnet", {0, radius, -half, half}, remanence_T, recoil)}), 0, {{}}, both);
    const std::string words = "length/diameter " + table.text_at(i, "gamma") + ", recoil permeability " +
                              table.text_at(i, "mu_rec") + ": ";
    const double their_bar = table.number_at(i, "est_err_Nm");
    record.by_finite_elements(
        {source, words + "moment / (V Br/mu0)", "1", table.text_at(i, "moment/(V*Br/mu0)"), their_bar},
        found[0]);
    record.by_finite_elements({source, words + "mid-plane mean of M / (Br/mu0)", "1",
                               table.text_at(i, "midplane_mean_M/(Br/mu0)"), their_bar},
                              found[1]);
  }
}

}  // namespace coilpull
