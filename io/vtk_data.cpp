#include "io/vtk_data.hpp"

#include "io/point_columns.hpp"
#include "io/surface_loops.hpp"
#include "io/trade_units.hpp"
#include "io/vtk_writing.hpp"
#include "solver/step_view.hpp"

#include <fmt/format.h>

#include <vtkCellArray.h>
#include <vtkCellType.h>
#include <vtkDataSetAttributes.h>
#include <vtkDoubleArray.h>
#include <vtkFloatArray.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkUnsignedCharArray.h>
#include <vtkUnstructuredGrid.h>

#include <vector>

namespace thinspot::io {

namespace {

using solver::PartResult;
using solver::Result;
using solver::SurfacePoint;

template <class Array, class Value>
void add_to_points(vtkPolyData* surface, const char* name,
                   const std::vector<LoopOfPart>& loops, Value value) {
  vtkNew<Array> array;
  array->SetName(name);
  for (const LoopOfPart& loop : loops)
    for (const SurfacePoint* p : loop.points)
      array->InsertNextValue(
          static_cast<typename Array::ValueType>(value(loop, *p)));
  surface->GetPointData()->AddArray(array);
}

}  // namespace

std::string section_vtu(const Result& result) {
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

std::string surface_vtp(const Result& result) {
  const std::vector<LoopOfPart> loops = loops_of(result);
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> lines;
  for (const LoopOfPart& loop : loops) {
    const vtkIdType first = points->GetNumberOfPoints();
    for (const SurfacePoint* p : loop.points)
      points->InsertNextPoint(to_mm(p->at.x()), to_mm(p->at.y()), 0);
    const std::vector<std::size_t> walk = walk_along(loop, result);
    lines->InsertNextCell(static_cast<int>(walk.size()));
    for (const std::size_t k : walk)
      lines->InsertCellPoint(first + static_cast<vtkIdType>(k));
  }
  vtkNew<vtkPolyData> surface;
  surface->SetPoints(points);
  surface->SetLines(lines);

  const auto add_numbers = [&](const char* name, auto value) {
    add_to_points<vtkDoubleArray>(surface, name, loops, value);
  };
  const auto add_ids = [&](const char* name, auto value) {
    add_to_points<vtkIntArray>(surface, name, loops, value);
  };
  const auto add_flags = [&](const char* name, auto value) {
    add_to_points<vtkUnsignedCharArray>(surface, name, loops, value);
  };
  using Loop = const LoopOfPart&;
  using Point = const SurfacePoint&;
  add_numbers("thickness_um", [](Loop, Point p) { return to_um(p.thickness); });
  add_numbers("current_density_A_dm2",
              [](Loop, Point p) { return to_a_dm2(p.current_density); });
  for (const PointColumn& column : point_columns(result))
    add_numbers(column.name.c_str(), [&](Loop loop, Point p) {
      const auto part = static_cast<std::size_t>(loop.part);
      return column.parts[part](&p - loop.owner->surface.data());
    });
  add_numbers("arc_mm", [](Loop, Point p) { return to_mm(p.arc); });
  add_numbers("area_cm2", [](Loop, Point p) { return to_cm2(p.weight); });
  add_ids("part", [](Loop loop, Point) { return loop.part; });
  add_ids("loop", [](Loop, Point p) { return p.loop; });
  add_ids("face", [](Loop loop, Point p) { return loop.first_face + p.face; });
  add_flags("wetted", [](Loop, Point p) { return p.wetted; });
  add_flags("judged", [](Loop, Point p) { return p.judged; });
  surface->GetPointData()->SetActiveScalars("thickness_um");

  vtkNew<vtkDoubleArray> normals;
  normals->SetName("normal");
  normals->SetNumberOfComponents(3);
  for (const LoopOfPart& loop : loops)
    for (const SurfacePoint* p : loop.points)
      normals->InsertNextTuple3(p->normal.x(), p->normal.y(), 0);
  surface->GetPointData()->SetNormals(normals);

  std::vector<std::string> names, parts;
  for (const PartResult& part : result.parts) parts.push_back(part.name);
  for (const PartResult& part : result.parts)
    for (const solver::FaceResult& face : part.faces)
      names.push_back(result.parts.size() == 1 ? face.name
                                               : part.name + ": " + face.name);
  add_text(surface->GetFieldData(), "part_names", parts);
  add_text(surface->GetFieldData(), "face_names", names);
  add_text(surface->GetFieldData(), "length_unit", {"mm"});
  return written(surface);
}

std::string step_vtp(const Result& result, std::size_t step) {
  return surface_vtp(solver::after_step(result, step));
}

std::string step_file(std::size_t step) {
  return fmt::format("step_{}.vtp", step + 1);
}

bool has_step_files(const Result& result) {
  return result.steps.size() > 1 ||
         (!result.steps.empty() &&
          result.steps.front().motion != mesh::Motion{});
}

std::string steps_pvd(const Result& result) {
  const auto entry = [](double seconds, int part, std::string_view file) {
    return fmt::format(
        "    <DataSet timestep=\"{:.6g}\" part=\"{}\" file=\"{}\"/>\n",
        to_minutes(seconds), part, file);
  };
  double seconds = 0;
  std::string entries;
  for (std::size_t k = 0; k < result.steps.size(); ++k) {
    seconds += result.steps[k].duration;
    entries += entry(seconds, 1,
                     has_step_files(result) ? step_file(k) : "surface.vtp");
  }
  return "<?xml version=\"1.0\"?>\n"
         "<VTKFile type=\"Collection\" version=\"0.1\">\n"
         "  <Collection>\n" +
         entry(seconds, 0, "section.vtu") + entries +
         "  </Collection>\n"
         "</VTKFile>\n";
}

}  // namespace thinspot::io
