#include "io/files_module.hpp"
#include "io/trade_units.hpp"
#include "io/vtk_writing.hpp"

#include <vtkCellArray.h>
#include <vtkCellType.h>
#include <vtkDoubleArray.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkUnstructuredGrid.h>

namespace thinspot::io {

using solver::Result;

std::string section_by_vtk(const Result& result) {
  const mesh::Mesh& m = result.mesh;
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  for (Eigen::Index k = 0; k < m.nodes.cols(); ++k)
    points->InsertNextPoint(to_mm(m.nodes(0, k)), to_mm(m.nodes(1, k)), 0);

  // VTK's quadratic triangle counts its nodes as mesh::Mesh does.
  vtkNew<vtkCellArray> cells;
  for (const auto& triangle : m.triangles.colwise()) {
    cells->InsertNextCell(6);
    for (const int node : triangle) cells->InsertCellPoint(node);
  }

  vtkNew<vtkDoubleArray> potential;
  potential->SetName("potential_V");
  for (const double value : result.potential) potential->InsertNextValue(value);

  // Six digits are more than a current density is worth, and take half the
  // room.
  vtkNew<vtkFloatArray> current_density;
  current_density->SetName("current_density_A_dm2");
  current_density->SetNumberOfComponents(3);
  for (const auto& i : result.current_density.colwise())
    current_density->InsertNextTuple3(to_a_dm2(i.x()), to_a_dm2(i.y()), 0);

  vtkNew<vtkUnstructuredGrid> grid;
  grid->SetPoints(points);
  grid->SetCells(VTK_QUADRATIC_TRIANGLE, cells);
  grid->GetPointData()->SetScalars(potential);
  grid->GetPointData()->SetVectors(current_density);
  add_text(grid->GetFieldData(), "length_unit", {"mm"});
  return written(grid);
}

}  // namespace thinspot::io
