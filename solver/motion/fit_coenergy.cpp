// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/motion/fit_coenergy.hpp"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>
#include <string>

namespace coilpull {
namespace {

using Sparse = Eigen::SparseMatrix<double>;
constexpr int local = SplineAxis::degree + 1;
/// Of each diagonal entry, far above its rounding: few rows leave directions that neither they nor the
/// differences see, and whose pivots would be rounding alone.
constexpr double held = 1e-12;

/// The rows in the units of their bars, ready for least squares.
struct Equations {
  SplineAxis z, i;
  Sparse normal;          ///< sum of rows' a a'
  Eigen::VectorXd right;  ///< sum of a times what it asks
  Sparse roughness;       ///< of force and linkage, in their widest bars
  double middle_J;        ///< taken off W' for the digits' sake
  double coenergy_bar_J;
};

bool usable(const CoenergyRow& row) {
  return std::isfinite(row.displacement) && std::isfinite(row.current_A) && std::isfinite(row.coenergy_J) &&
         std::isfinite(row.force_N.value) && row.force_N.error > 0 && std::isfinite(row.linkage_Wb.value) &&
         row.linkage_Wb.error > 0;
}

std::vector<CoenergyRow> usable_rows(const std::vector<CoenergyRow>& rows) {
  std::vector<CoenergyRow> good;
  for (const CoenergyRow& row : rows)
    if (usable(row)) good.push_back(row);
  return good;
}

template <class Coordinate>
SplineAxis axis_of(const std::vector<CoenergyRow>& rows, Coordinate coordinate, const char* words) {
  std::set<double> places;
  for (const CoenergyRow& row : rows) places.insert(row.*coordinate);
  if (places.size() < 2)
    throw std::invalid_argument(std::string("a coenergy function needs usable rows at two ") + words +
                                " at least");
  return SplineAxis({places.begin(), places.end()});
}

struct Widest {
  double force_N = 0, linkage_Wb = 0;
};

Widest widest_bars(const std::vector<CoenergyRow>& rows) {
  Widest widest;
  for (const CoenergyRow& row : rows) {
    widest.force_N = std::max(widest.force_N, row.force_N.error);
    widest.linkage_Wb = std::max(widest.linkage_Wb, row.linkage_Wb.error);
  }
  return widest;
}

/// Sum of the products of two matrices that belong to either axis: function (a, b) is number a * n_i + b.
Sparse product(const Eigen::MatrixXd& of_z, const Eigen::MatrixXd& of_i, double scale) {
  const Eigen::Index n = of_i.rows();
  std::vector<Eigen::Triplet<double>> entries;
  for (Eigen::Index a = 0; a < of_z.rows(); ++a)
    for (Eigen::Index c = std::max<Eigen::Index>(0, a - local + 1); c < std::min(of_z.rows(), a + local); ++c)
      for (Eigen::Index b = 0; b < n; ++b)
        for (Eigen::Index d = std::max<Eigen::Index>(0, b - local + 1); d < std::min(n, b + local); ++d)
          entries.emplace_back(static_cast<int>(a * n + b), static_cast<int>(c * n + d),
                               scale * of_z(a, c) * of_i(b, d));
  Sparse sum(of_z.rows() * n, of_z.rows() * n);
  sum.setFromTriplets(entries.begin(), entries.end());
  return sum;
}

Equations equations_of(const std::vector<CoenergyRow>& rows) {
  Equations e{axis_of(rows, &CoenergyRow::displacement, "displacements"),
              axis_of(rows, &CoenergyRow::current_A, "currents"),
              {},
              {},
              {},
              rows.front().coenergy_J,
              0};
  const Widest bars = widest_bars(rows);
  e.coenergy_bar_J = bars.force_N * (e.z.to() - e.z.from()) + bars.linkage_Wb * (e.i.to() - e.i.from());
  const Eigen::Index n = e.i.functions(), unknowns = e.z.functions() * n;
  e.right = Eigen::VectorXd::Zero(unknowns);
  std::vector<Eigen::Triplet<double>> entries;
  for (const CoenergyRow& row : rows) {
    const SplineAxis::Basis z = e.z.at(row.displacement), i = e.i.at(row.current_A);
    const auto ask = [&](int along_z, int along_i, double value, double bar) {
      const Eigen::Matrix<double, local, local> a =
          z.derivative.row(along_z).matrix().transpose() * i.derivative.row(along_i).matrix() / bar;
      const auto number = [&](int k) {
        return static_cast<int>((z.first + k % local) * n + i.first + k / local);
      };
      for (int k = 0; k < a.size(); ++k) {
        e.right(number(k)) += a(k) * value / bar;
        for (int l = 0; l < a.size(); ++l) entries.emplace_back(number(k), number(l), a(k) * a(l));
      }
    };
    ask(1, 0, row.force_N.value, row.force_N.error);
    ask(0, 1, row.linkage_Wb.value, row.linkage_Wb.error);
    ask(0, 0, row.coenergy_J - e.middle_J, e.coenergy_bar_J);
  }
  e.normal.resize(unknowns, unknowns);
  e.normal.setFromTriplets(entries.begin(), entries.end());
  const double force = std::pow(bars.force_N, -2), linkage = std::pow(bars.linkage_Wb, -2);
  e.roughness = product(e.z.gram(4, 3), e.i.gram(0, 0), force);     // third differences of F along z
  e.roughness += product(e.z.gram(1, 0), e.i.gram(4, 4), force);    // fourth of F along i
  e.roughness += product(e.z.gram(0, 0), e.i.gram(4, 3), linkage);  // third of the linkage along i
  e.roughness += product(e.z.gram(4, 4), e.i.gram(1, 0), linkage);  // fourth of the linkage along z
  return e;
}

/// Coefficients mirrored: (a, b) becomes (n - 1 - a, b) and so on.
Eigen::MatrixXd mirrored(const Eigen::MatrixXd& c, Mirror mirror) {
  if (mirror == Mirror::displacement) return c.colwise().reverse();
  if (mirror == Mirror::current) return c.rowwise().reverse();
  return c.reverse();
}

bool same_in_mirror(const SplineAxis& axis) {
  const std::vector<double>& x = axis.places();
  for (std::size_t k = 0; k < x.size(); ++k)
    if (std::abs(x[k] + x[x.size() - 1 - k] - axis.from() - axis.to()) > 1e-9 * (axis.to() - axis.from()))
      return false;
  return true;
}

/// Whether every row has a counterpart whose force and linkage are its own, up to sign, within both bars.
bool holds(Mirror mirror, const std::vector<CoenergyRow>& rows, const SplineAxis& z, const SplineAxis& i) {
  const bool turns_z = mirror != Mirror::current, turns_i = mirror != Mirror::displacement;
  if (turns_z && !same_in_mirror(z)) return false;
  const double span_z = z.to() - z.from(), span_i = i.to() - i.from();
  if (turns_i && (!same_in_mirror(i) || std::abs(i.from() + i.to()) > 1e-9 * span_i)) return false;
  return std::all_of(rows.begin(), rows.end(), [&](const CoenergyRow& row) {
    const double there_z = turns_z ? z.from() + z.to() - row.displacement : row.displacement;
    const double there_i = turns_i ? -row.current_A : row.current_A;
    const auto other = std::find_if(rows.begin(), rows.end(), [&](const CoenergyRow& o) {
      return std::abs(o.displacement - there_z) < 1e-9 * span_z &&
             std::abs(o.current_A - there_i) < 1e-9 * span_i;
    });
    if (other == rows.end()) return false;
    const double force = turns_z ? -other->force_N.value : other->force_N.value;
    const double linkage = turns_i ? -other->linkage_Wb.value : other->linkage_Wb.value;
    return std::abs(row.force_N.value - force) <= row.force_N.error + other->force_N.error &&
           std::abs(row.linkage_Wb.value - linkage) <= row.linkage_Wb.error + other->linkage_Wb.error;
  });
}

void hold_worst(WorstRow& worst, double miss, double bar, std::size_t row) {
  if (const double bars = std::abs(miss) / bar; bars > worst.bars) worst = {bars, row};
}

void compare(CoenergyFit& fit, const std::vector<CoenergyRow>& rows) {
  for (std::size_t k = 0; k < rows.size(); ++k) {
    if (!usable(rows[k])) continue;
    const CoenergyPoint at = fit.function.at(rows[k].displacement, rows[k].current_A);
    hold_worst(fit.force, at.force_N - rows[k].force_N.value, rows[k].force_N.error, k);
    hold_worst(fit.linkage, at.linkage_Wb - rows[k].linkage_Wb.value, rows[k].linkage_Wb.error, k);
    hold_worst(fit.coenergy, at.coenergy_J - rows[k].coenergy_J, fit.coenergy_bar_J, k);
  }
}

}  // namespace

CoenergyFit fit_coenergy(const std::vector<CoenergyRow>& rows, const CoenergyFitOptions& options) {
  const std::vector<CoenergyRow> good = usable_rows(rows);
  if (good.empty()) throw std::invalid_argument("a coenergy function needs usable rows");
  const Equations e = equations_of(good);
  Sparse matrix = e.normal + options.smoothing * e.roughness;
  matrix.diagonal() *= 1 + held;
  const Eigen::SimplicialLDLT<Sparse> factor(matrix);
  if (factor.info() != Eigen::Success)
    throw std::invalid_argument("the rows do not determine a coenergy function");
  Eigen::VectorXd x = factor.solve(e.right);
  for (int round = 1; round < options.rounds; ++round) x += factor.solve(e.right - e.normal * x);
  Eigen::MatrixXd c = Eigen::Map<const Eigen::Matrix<double, -1, -1, Eigen::RowMajor>>(
      x.data(), e.z.functions(), e.i.functions());
  std::vector<Mirror> mirrors;
  for (const Mirror mirror : {Mirror::displacement, Mirror::current, Mirror::both})
    if (holds(mirror, good, e.z, e.i)) {
      mirrors.push_back(mirror);
      c = (c + mirrored(c, mirror)).eval() / 2;
    }
  c.array() += e.middle_J;  // the functions add up to 1 everywhere
  CoenergyFit fit{CoenergyFunction(e.z, e.i, std::move(c)),
                  {},
                  {},
                  {},
                  e.coenergy_bar_J,
                  mirrors,
                  rows.size() - good.size()};
  compare(fit, rows);
  return fit;
}

}  // namespace coilpull
