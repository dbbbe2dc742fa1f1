#include "viz/chains.hpp"
#include "viz/contours_module.hpp"

#include <vtkBandedPolyDataContourFilter.h>
#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkCleanPolyData.h>
#include <vtkContourFilter.h>
#include <vtkDoubleArray.h>
#include <vtkIdList.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkStreamTracer.h>
#include <vtkStripper.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr const char* potential_name = "potential";
constexpr const char* strength_name = "strength";
constexpr const char* current_name = "current";

vtkNew<vtkCellArray> cells_of(const FineMesh& fine) {
  vtkNew<vtkCellArray> cells;
  for (Eigen::Index t = 0; t < fine.triangles.cols(); ++t) {
    const vtkIdType ids[3] = {fine.triangles(0, t), fine.triangles(1, t),
                              fine.triangles(2, t)};
    cells->InsertNextCell(3, ids);
  }
  return cells;
}

vtkNew<vtkDoubleArray> array_named(const char* name, int components,
                                   vtkIdType size) {
  vtkNew<vtkDoubleArray> array;
  array->SetName(name);
  array->SetNumberOfComponents(components);
  array->SetNumberOfTuples(size);
  return array;
}

mesh::Point flat(const double* p) { return {p[0], p[1]}; }

Chain chain_of(vtkPoints* points, vtkIdType n, const vtkIdType* ids) {
  Chain chain;
  for (vtkIdType k = 0; k < n; ++k)
    chain.push_back(flat(points->GetPoint(ids[k])));
  return chain;
}

struct Band {
  std::vector<int> polygon;
  double index = 0;
};

/// Polygons of one sense with the number of the band each lies in.
std::vector<Band> bands_of(vtkPolyData* data) {
  std::vector<Band> result;
  vtkDataArray* index = data->GetCellData()->GetScalars();
  vtkNew<vtkIdList> ids;
  for (vtkIdType c = 0; c < data->GetNumberOfCells(); ++c) {
    data->GetCellPoints(c, ids);
    if (ids->GetNumberOfIds() < 3) continue;
    Band band;
    band.index = index->GetComponent(c, 0);
    for (vtkIdType k = 0; k < ids->GetNumberOfIds(); ++k)
      band.polygon.push_back(static_cast<int>(ids->GetId(k)));
    result.push_back(std::move(band));
  }
  return result;
}

class VtkContours : public Contours {
 public:
  explicit VtkContours(const FineMesh& fine);
  std::vector<Chain> equipotential(double volts) const override;
  std::vector<std::vector<Chain>> regions_above(
      const std::vector<double>& levels) const override;
  Chain upstream(const mesh::Point& seed) const override;

 private:
  vtkNew<vtkPolyData> liquid_;
  double size_ = 0;  ///< of the mesh [m]
};

VtkContours::VtkContours(const FineMesh& fine) {
  const vtkIdType n = fine.nodes.cols();
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  points->SetNumberOfPoints(n);
  const auto potential = array_named(potential_name, 1, n);
  const auto strength = array_named(strength_name, 1, n);
  const auto current = array_named(current_name, 3, n);
  for (vtkIdType k = 0; k < n; ++k) {
    const mesh::Point at = fine.nodes.col(k);
    const mesh::Point i = fine.current_density.col(k);
    points->SetPoint(k, at.x(), at.y(), 0);
    potential->SetValue(k, fine.potential[k]);
    strength->SetValue(k, i.norm());
    current->SetTuple3(k, i.x(), i.y(), 0);
  }
  liquid_->SetPoints(points);
  liquid_->SetPolys(cells_of(fine));
  liquid_->GetPointData()->AddArray(potential);
  liquid_->GetPointData()->AddArray(strength);
  liquid_->GetPointData()->AddArray(current);
  size_ = liquid_->GetLength();
}

std::vector<Chain> VtkContours::equipotential(double volts) const {
  vtkNew<vtkContourFilter> contour;
  contour->SetInputData(liquid_);
  contour->SetInputArrayToProcess(
      0, 0, 0, vtkDataObject::FIELD_ASSOCIATION_POINTS, potential_name);
  contour->ComputeScalarsOff();
  contour->SetValue(0, volts);
  vtkNew<vtkStripper> stripper;
  stripper->SetInputConnection(contour->GetOutputPort());
  stripper->JoinContiguousSegmentsOn();
  stripper->SetMaximumLength(1'000'000);
  stripper->Update();
  vtkPolyData* lines = stripper->GetOutput();
  std::vector<Chain> chains;
  vtkIdType size = 0;
  const vtkIdType* ids = nullptr;
  vtkCellArray* cells = lines->GetLines();
  for (cells->InitTraversal(); cells->GetNextCell(size, ids) != 0;)
    chains.push_back(chain_of(lines->GetPoints(), size, ids));
  return chains;
}

std::vector<std::vector<Chain>> VtkContours::regions_above(
    const std::vector<double>& levels) const {
  if (levels.empty()) return {};
  liquid_->GetPointData()->SetActiveScalars(strength_name);
  vtkNew<vtkBandedPolyDataContourFilter> banded;
  banded->SetInputData(liquid_);
  banded->SetNumberOfContours(static_cast<int>(levels.size()));
  for (std::size_t k = 0; k < levels.size(); ++k)
    banded->SetValue(static_cast<int>(k), levels[k]);
  banded->SetScalarModeToValue();
  banded->ClippingOff();
  vtkNew<vtkCleanPolyData> clean;  // points that neighbours made twice
  clean->SetInputConnection(banded->GetOutputPort());
  clean->ToleranceIsAbsoluteOn();
  clean->SetAbsoluteTolerance(1e-9 * size_);
  clean->Update();
  vtkPolyData* shapes = clean->GetOutput();
  const std::vector<Band> bands = bands_of(shapes);
  std::vector<std::vector<Chain>> regions;
  for (const double level : levels) {
    std::vector<std::vector<int>> above;
    for (const Band& band : bands)
      if (band.index >= level * (1 - 1e-9)) above.push_back(band.polygon);
    std::vector<Chain> chains;
    for (const auto& loop : closed_loops(rim(above))) {
      Chain chain;
      for (const int id : loop) chain.push_back(flat(shapes->GetPoint(id)));
      chains.push_back(std::move(chain));
    }
    regions.push_back(std::move(chains));
  }
  return regions;
}

Chain VtkContours::upstream(const mesh::Point& seed) const {
  vtkNew<vtkPoints> points;
  points->InsertNextPoint(seed.x(), seed.y(), 0);
  vtkNew<vtkPolyData> start;
  start->SetPoints(points);
  vtkNew<vtkStreamTracer> tracer;
  tracer->SetInputData(liquid_);
  tracer->SetSourceData(start);
  tracer->SetInputArrayToProcess(
      0, 0, 0, vtkDataObject::FIELD_ASSOCIATION_POINTS, current_name);
  tracer->SetIntegrationDirectionToBackward();
  tracer->SetIntegratorTypeToRungeKutta45();
  tracer->SetComputeVorticity(false);
  tracer->SetSurfaceStreamlines(false);
  // Short steps: the last one ends before the edge of the liquid.
  tracer->SetMaximumIntegrationStep(0.25);
  tracer->SetMaximumPropagation(4 * size_);
  tracer->SetMaximumNumberOfSteps(4000);
  tracer->Update();
  vtkPolyData* lines = tracer->GetOutput();
  vtkIdType size = 0;
  const vtkIdType* ids = nullptr;
  vtkCellArray* cells = lines->GetLines();
  if (cells == nullptr) return {};
  cells->InitTraversal();
  if (cells->GetNextCell(size, ids) == 0) return {};
  return chain_of(lines->GetPoints(), size, ids);
}

}  // namespace

std::unique_ptr<const Contours> contours_by_vtk(const FineMesh& fine) {
  return std::make_unique<VtkContours>(fine);
}

}  // namespace thinspot::viz
