#include "io/files_module.hpp"
#include "io/point_columns.hpp"
#include "io/surface_loops.hpp"
#include "io/trade_units.hpp"
#include "io/vtk_writing.hpp"

#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkUnsignedCharArray.h>

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

std::string surface_by_vtk(const Result& result) {
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

}  // namespace thinspot::io
