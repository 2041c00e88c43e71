// SPDX-License-Identifier: GPL-3.0-or-later
#include <doctest/doctest.h>
#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <unistd.h>

#include <cmath>
#include <filesystem>

#include "apps/output/vtu_file.hpp"
#include "tests/near.hpp"

using namespace coilpull;

namespace {

double polynomial(int degree, double r, double z) {
  return 1 + std::pow(r + 2 * z, degree) - (degree > 1 ? r * z : r);
}

/// Two straight triangles of a unit square with a field of the given degree; in the second everything is
/// doubled, so that it jumps at the diagonal. The second is wound with 50 turns per square metre and is of
/// linear steel.
VtuCells square(int degree) {
  const double corners[2][3][2] = {{{0, 0}, {1, 0}, {0, 1}}, {{1, 0}, {1, 1}, {0, 1}}};
  FieldSample sample;
  sample.divisions = degree;
  sample.region_of = {0, 1};
  const Eigen::Index points = 2 * sample.per_triangle();
  sample.at.resize(2, points);
  sample.b.resize(2, points);
  sample.flux.resize(points);
  sample.a_phi.resize(points);
  for (int t = 0; t < 2; ++t)
    for (int j = 0; j <= degree; ++j)
      for (int i = 0; i + j <= degree; ++i) {
        const Eigen::Index k = t * sample.per_triangle() + lattice_point(degree, i, j);
        const double l1 = static_cast<double>(i) / degree, l2 = static_cast<double>(j) / degree,
                     l0 = 1 - l1 - l2;
        for (int x = 0; x < 2; ++x)
          sample.at(x, k) = l0 * corners[t][0][x] + l1 * corners[t][1][x] + l2 * corners[t][2][x];
        const double value = (t + 1) * polynomial(degree, sample.at(0, k), sample.at(1, k));
        sample.a_phi[k] = value;
        sample.flux[k] = sample.at(0, k) * value;
        sample.b.col(k) = Eigen::Vector2d(value, -value);
      }
  Problem problem;
  problem.regions = {{}, {SoftLaw{LinearLaw(10)}, Winding{0, 50}}};
  problem.circuits = 1;
  VtuCells cells = vtu_cells(sample, problem, {"air & more", "iron"}, {3});
  cells.displacement = 2.5e-3;
  cells.title = "<title> \"x\" & \xFF";
  return cells;
}

vtkNew<vtkUnstructuredGrid> read_back(const VtuCells& cells) {
  const auto file =
      std::filesystem::temp_directory_path() / ("coilpull_vtu_test_" + std::to_string(::getpid()) + ".vtu");
  write_vtu(file.parent_path(), file.filename(), cells);
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName(file.c_str());
  reader->Update();
  vtkNew<vtkUnstructuredGrid> grid;
  grid->DeepCopy(reader->GetOutput());
  std::filesystem::remove(file);
  return grid;
}

}  // namespace

TEST_CASE("a field of any order comes back from the file as the same polynomial, jumps included") {
  constexpr double exact = 1e-12;  // polynomial interpolation in double precision
  for (int degree = 1; degree <= 6; ++degree) {
    INFO("order " << degree);
    const auto grid = read_back(square(degree));
    REQUIRE(grid->GetNumberOfCells() == 2);
    CHECK(grid->GetNumberOfPoints() == (degree + 1) * (degree + 2));  // nothing is shared
    for (int t = 0; t < 2; ++t) {
      vtkCell* cell = grid->GetCell(t);
      for (const auto& [u, v] : {std::pair{0.2, 0.3}, std::pair{0.61, 0.17}, std::pair{0.05, 0.9}}) {
        const double place[3] = {u, v, 0};
        double at[3];
        std::vector<double> weights(cell->GetNumberOfPoints());
        int sub = 0;
        cell->EvaluateLocation(sub, place, at, weights.data());
        double a = 0, b[2] = {0, 0}, h = 0;
        for (std::size_t k = 0; k < weights.size(); ++k) {
          const vtkIdType point = cell->GetPointId(static_cast<int>(k));
          a += weights[k] * grid->GetPointData()->GetArray("A_phi_T_m")->GetTuple1(point);
          for (int x = 0; x < 2; ++x)
            b[x] += weights[k] * grid->GetPointData()->GetArray("B_T")->GetComponent(point, x);
          h += weights[k] * grid->GetPointData()->GetArray("H_A_per_m")->GetComponent(point, 1);
        }
        const double value = (t + 1) * polynomial(degree, at[0], at[1]);
        CHECK(a == near(value, exact));
        CHECK(b[0] == near(value, exact));
        CHECK(b[1] == near(-value, exact));
        CHECK(h == near(-value / (4e-7 * M_PI) / (t == 0 ? 1 : 10),
                        1e-8));  // mu0 is measured since 2019: 2e-10 off
      }
    }
  }
}

TEST_CASE("a file carries the current density, the parts with their names, and the displacement") {
  const auto grid = read_back(square(4));
  CHECK(grid->GetCellData()->GetArray("J_phi_A_per_m2")->GetTuple1(0) == 0);
  CHECK(grid->GetCellData()->GetArray("J_phi_A_per_m2")->GetTuple1(1) == near(150, 1e-15));
  CHECK(grid->GetCellData()->GetArray("part")->GetTuple1(1) == 1);
  auto* names = vtkStringArray::SafeDownCast(grid->GetFieldData()->GetAbstractArray("part_names"));
  REQUIRE(names);
  CHECK(std::string(names->GetValue(0)) == "air & more");
  CHECK(std::string(names->GetValue(1)) == "iron");
  auto* title = vtkStringArray::SafeDownCast(grid->GetFieldData()->GetAbstractArray("title"));
  REQUIRE(title);
  CHECK(std::string(title->GetValue(0)) == "<title> \"x\" & ?");
  CHECK(grid->GetFieldData()->GetArray("TimeValue")->GetTuple1(0) == near(2.5, 1e-15));
}

TEST_CASE("a collection escapes what its file names hold") {
  CHECK(pvd_text({{-2.5, "a&b.vtu"}}).find("timestep=\"-2.5\" part=\"0\" file=\"a&amp;b.vtu\"") !=
        std::string::npos);
}
