#include "io/files_module.hpp"
#include "io/surface_loops.hpp"
#include "io/trade_units.hpp"
#include "io/vtk_data.hpp"
#include "io/vtk_writing.hpp"

#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkFloatArray.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkUnsignedCharArray.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace thinspot::io {

namespace {

using solver::Result;
using solver::SurfacePoint;

/// Six degrees each look round; where that makes too many cells, fewer.
constexpr std::size_t kMostSectors = 60, kLeastSectors = 24;

/// Stretches from one surface point to the next, all loops together.
std::size_t stretches(const std::vector<std::vector<std::size_t>>& walks) {
  std::size_t count = 0;
  for (const auto& walk : walks) count += walk.size() - 1;
  return count;
}

/// Each so-manieth of a walk, and its end.
std::vector<std::size_t> thinned(const std::vector<std::size_t>& walk,
                                 std::size_t every) {
  std::vector<std::size_t> kept;
  for (std::size_t k = 0; k + 1 < walk.size(); k += every)
    kept.push_back(walk[k]);
  kept.push_back(walk.back());
  return kept;
}

/// The body in the making. Each surface point becomes a rib of points: two for
/// a sheet, a ring for a body of revolution.
class Body {
 public:
  Body(const Result& result, std::size_t sectors)
      : depth_(to_mm(result.depth)), sectors_(sectors) {
    points_->SetDataTypeToDouble();
    thickness_->SetName("thickness_um");
    density_->SetName("current_density_A_dm2");
    wetted_->SetName("wetted");
    part_->SetName("part");
    normals_->SetName("normal");
    normals_->SetNumberOfComponents(3);
  }

  void add(const LoopOfPart& loop, const std::vector<std::size_t>& walk) {
    const vtkIdType first = points_->GetNumberOfPoints() / width();
    const bool closed = walk.size() > 1 && walk.front() == walk.back();
    const std::size_t ribs = walk.size() - (closed ? 1 : 0);
    for (std::size_t k = 0; k < ribs; ++k)
      add_rib(loop.part, *loop.points[walk[k]]);
    for (std::size_t k = 0; k + 1 < walk.size(); ++k)
      join(first + static_cast<vtkIdType>(k),
           first + static_cast<vtkIdType>((k + 1) % ribs));
  }

  std::string text() {
    vtkNew<vtkPolyData> body;
    body->SetPoints(points_);
    body->SetPolys(quads_);
    vtkPointData* data = body->GetPointData();
    data->SetScalars(thickness_);
    data->AddArray(density_);
    data->AddArray(wetted_);
    data->AddArray(part_);
    data->SetNormals(normals_);
    add_text(body->GetFieldData(), "length_unit", {"mm"});
    return written(body);
  }

 private:
  bool turned() const { return sectors_ > 0; }
  vtkIdType width() const {
    return turned() ? static_cast<vtkIdType>(sectors_) : 2;
  }

  void add_rib(int part, const SurfacePoint& p) {
    const double x = to_mm(p.at.x()), y = to_mm(p.at.y());
    const auto count = static_cast<int>(width());
    for (int k = 0; k < count; ++k) {
      // From the section backwards, or round from it.
      const double angle = turned() ? 2 * std::numbers::pi * k / count : 0;
      const double c = std::cos(angle), s = std::sin(angle);
      points_->InsertNextPoint(x * c, y, turned() ? -x * s : -depth_ * k);
      normals_->InsertNextTuple3(p.normal.x() * c, p.normal.y(),
                                 -p.normal.x() * s);
      thickness_->InsertNextValue(to_um(p.thickness));
      density_->InsertNextValue(to_a_dm2(p.current_density));
      wetted_->InsertNextValue(p.wetted ? 1 : 0);
      part_->InsertNextValue(part);
    }
  }

  void join(vtkIdType from, vtkIdType to) {
    const vtkIdType n = width();
    for (vtkIdType k = 0; k < (turned() ? n : 1); ++k) {
      const vtkIdType next = (k + 1) % n;
      const vtkIdType corners[] = {from * n + k, from * n + next, to * n + next,
                                   to * n + k};
      quads_->InsertNextCell(4, corners);
    }
  }

  double depth_;
  std::size_t sectors_;  ///< 0: a sheet
  vtkNew<vtkPoints> points_;
  vtkNew<vtkCellArray> quads_;
  vtkNew<vtkDoubleArray> thickness_, density_;
  vtkNew<vtkUnsignedCharArray> wetted_;
  vtkNew<vtkIntArray> part_;
  vtkNew<vtkFloatArray> normals_;
};

}  // namespace

std::string part_by_vtk(const Result& result) {
  const std::vector<LoopOfPart> loops = loops_of(result);
  std::vector<std::vector<std::size_t>> walks;
  for (const LoopOfPart& loop : loops)
    walks.push_back(walk_along(loop, result));

  const bool turned = result.section.cut == mesh::Cut::axisymmetric;
  const std::size_t least = turned ? kLeastSectors : 1;
  // Thinning keeps the end of every walk, so it may leave one more a loop.
  const std::size_t room = most_part_cells / least - loops.size();
  const std::size_t every = (stretches(walks) + room - 1) / room;
  for (auto& walk : walks)
    walk = thinned(walk, std::max<std::size_t>(every, 1));

  std::size_t sectors = 0;
  if (turned)
    sectors =
        std::clamp(most_part_cells / std::max<std::size_t>(stretches(walks), 1),
                   kLeastSectors, kMostSectors);
  Body body(result, sectors);
  for (std::size_t k = 0; k < loops.size(); ++k) body.add(loops[k], walks[k]);
  return body.text();
}

}  // namespace thinspot::io
