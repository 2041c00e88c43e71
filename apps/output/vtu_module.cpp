// SPDX-License-Identifier: GPL-3.0-or-later
#include "apps/output/vtu_module.hpp"

#include <vtkCellData.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include <exception>

namespace coilpull {
namespace {

/// One or two components of the sample's points, in the file's order; two become (r, z, 0).
template <class Values>
vtkNew<vtkDoubleArray> point_array(const char* name, const VtuCells& cells, const std::vector<int>& order,
                                   const Values& values) {
  vtkNew<vtkDoubleArray> array;
  const bool vector = values.rows() == 2;
  array->SetName(name);
  array->SetNumberOfComponents(vector ? 3 : 1);
  array->SetNumberOfTuples(values.cols());
  const int points = cells.sample.per_triangle();
  for (Eigen::Index t = 0; t < cells.sample.triangles(); ++t)
    for (int k = 0; k < points; ++k) {
      const auto from = values.col(t * points + order[k]);
      const double tuple[3] = {from[0], vector ? from[values.rows() - 1] : 0, 0};
      array->SetTuple(t * points + k, tuple);
    }
  return array;
}

template <class Values>
vtkNew<vtkStringArray> words(const char* name, const Values& values) {
  vtkNew<vtkStringArray> array;
  array->SetName(name);
  for (const std::string& value : values) array->InsertNextValue(value);
  return array;
}

int cell_type(int order) {
  if (order == 1) return VTK_TRIANGLE;
  return order == 2 ? VTK_QUADRATIC_TRIANGLE : VTK_LAGRANGE_TRIANGLE;
}

void add_cells(vtkUnstructuredGrid& grid, const VtuCells& cells) {
  const int points = cells.sample.per_triangle();
  std::vector<vtkIdType> ids(points);
  vtkNew<vtkDoubleArray> j;
  j->SetName("J_phi_A_per_m2");
  vtkNew<vtkIntArray> part;
  part->SetName("part");
  for (Eigen::Index t = 0; t < cells.sample.triangles(); ++t) {
    for (int k = 0; k < points; ++k) ids[k] = t * points + k;
    grid.InsertNextCell(cell_type(cells.sample.divisions), points, ids.data());
    j->InsertNextValue(cells.j_phi[t]);
    part->InsertNextValue(cells.sample.region_of[t]);
  }
  grid.GetCellData()->AddArray(j);
  grid.GetCellData()->AddArray(part);
}

std::string vtu_text(const VtuCells& cells) {
  const std::vector<int> order = vtk_order(cells.sample.divisions);
  vtkNew<vtkUnstructuredGrid> grid;
  vtkNew<vtkPoints> points;
  points->SetData(point_array("r_z_m", cells, order, cells.sample.at));
  grid->SetPoints(points);
  add_cells(*grid, cells);
  grid->GetPointData()->AddArray(point_array("A_phi_T_m", cells, order, cells.sample.a_phi.transpose()));
  grid->GetPointData()->AddArray(point_array("psi_Wb_per_rad", cells, order, cells.sample.flux.transpose()));
  grid->GetPointData()->AddArray(point_array("B_T", cells, order, cells.sample.b));
  grid->GetPointData()->AddArray(point_array("H_A_per_m", cells, order, cells.h));

  vtkNew<vtkDoubleArray> place;
  place->SetName("TimeValue");  // what viewers step through: the displacement in mm
  place->InsertNextValue(1e3 * cells.displacement);
  grid->GetFieldData()->AddArray(place);
  grid->GetFieldData()->AddArray(words("part_names", cells.part_names));
  grid->GetFieldData()->AddArray(words("title", std::vector<std::string>{cells.title}));

  vtkNew<vtkXMLUnstructuredGridWriter> writer;
  writer->SetInputData(grid);
  writer->WriteToOutputStringOn();
  writer->SetDataModeToAppended();
  writer->EncodeAppendedDataOn();  // base64: the file stays XML
  writer->SetCompressorTypeToZLib();
  if (!writer->Write()) throw std::runtime_error("VTK could not write the cells");
  return writer->GetOutputString();
}

}  // namespace
}  // namespace coilpull

extern "C" bool coilpull_make_vtu(const coilpull::VtuCells& cells, std::string& text) {
  try {
    text = coilpull::vtu_text(cells);
    return true;
  } catch (const std::exception& trouble) {
    text = trouble.what();
    return false;
  }
}
