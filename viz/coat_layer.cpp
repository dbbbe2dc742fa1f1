#include "viz/coat_layer.hpp"

#include "viz/window_paint.hpp"

#include <vtkActor.h>
#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkIdList.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>
#include <vtkRegularPolygonSource.h>
#include <vtkRenderer.h>
#include <vtkSmartPointer.h>
#include <vtkTubeFilter.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::viz {

namespace {

/// On the screen [pixels].
constexpr double kHalfWidth = 4, kHalfCasing = 5.2, kMark = 8;

/// The walk's points, each once where several lie at one place.
Loop places_of(const SurfaceData& surface, const std::vector<int>& walk) {
  Loop places;
  for (const int k : walk)
    if (places.empty() || places.back() != surface.points.col(k))
      places.emplace_back(surface.points.col(k));
  return places;
}

/// A walk's places moved out of the metal by so much, corners mitred.
std::vector<Eigen::Vector2d> moved_out(const SurfaceData& surface,
                                       const std::vector<int>& walk,
                                       double out) {
  const bool closed = walk.front() == walk.back();
  const auto count = static_cast<int>(walk.size());
  // Of the piece after a point; of one without length, nothing.
  const auto side = [&](int k) -> Eigen::Vector2d {
    if (closed) k = (k + count - 1) % (count - 1);
    if (k < 0 || k + 1 >= count) return {0, 0};
    const auto at = [&](int n) {
      return surface.points.col(walk[static_cast<std::size_t>(n)]);
    };
    const Eigen::Vector2d way = at(k + 1) - at(k);
    return Eigen::Vector2d(way.y(), -way.x()).stableNormalized();
  };
  std::vector<Eigen::Vector2d> steps;
  double outwards = 0;
  for (int k = 0; k < count; ++k) {
    Eigen::Vector2d before = side(k - 1), after = side(k);
    if (before.isZero()) before = after;
    if (after.isZero()) after = before;
    const Eigen::Vector2d sum = before + after;
    // As far as both pieces move, but no spike at a sharp corner.
    const double length = std::max(sum.squaredNorm() / 2, 0.25);
    steps.push_back(sum / length);
    outwards += sum.dot(surface.normals.col(walk[static_cast<std::size_t>(k)]));
  }
  std::vector<Eigen::Vector2d> places;
  for (std::size_t k = 0; k < walk.size(); ++k)
    places.emplace_back(surface.points.col(walk[k]) +
                        (outwards < 0 ? -out : out) * steps[k]);
  return places;
}

/// The surface, moved out of the metal by so much, as lines with thickness at
/// the points; no number where it is not wetted.
vtkSmartPointer<vtkPolyData> coated_lines(const SurfaceData& surface,
                                          double out) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> lines;
  vtkNew<vtkDoubleArray> thickness;
  for (const std::vector<int>& walk : surface.walks) {
    vtkNew<vtkIdList> line;
    const std::vector<Eigen::Vector2d> places = moved_out(surface, walk, out);
    for (std::size_t k = 0; k < walk.size(); ++k) {
      const Eigen::Vector2d& at = places[k];
      // A tube cannot turn where two points coincide.
      if (k > 0 && at == places[k - 1]) continue;
      line->InsertNextId(points->InsertNextPoint(at.x(), at.y(), 0));
      thickness->InsertNextValue(
          surface.wetted(walk[k]) == 1
              ? surface.thickness(walk[k])
              : std::numeric_limits<double>::quiet_NaN());
    }
    // A closed one runs on a little, so that its ends overlap.
    const vtkIdType count = line->GetNumberOfIds();
    if (count > 3 && walk.front() == walk.back()) {
      line->SetId(count - 1, line->GetId(0));
      line->InsertNextId(line->GetId(1));
    }
    if (count > 1) lines->InsertNextCell(line);
  }
  auto data = vtkSmartPointer<vtkPolyData>::New();
  data->SetPoints(points);
  data->SetLines(lines);
  data->GetPointData()->SetScalars(thickness);
  return data;
}

vtkSmartPointer<vtkPolyData> metal_of(const SurfaceData& surface) {
  std::vector<Loop> loops;
  for (const std::vector<int>& walk : surface.walks) {
    Loop loop = places_of(surface, walk);
    if (loop.size() > 1 && loop.front() == loop.back()) loop.pop_back();
    if (loop.size() > 2) loops.push_back(std::move(loop));
  }
  return filled(loops);
}

/// Least and largest thickness that colours must tell apart. Where there are
/// several steps, bare metal is among them; what differs by less than a
/// twentieth is even and looks so.
std::pair<double, double> range_of(const std::vector<StepData>& steps) {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const StepData& step : steps)
    for (Eigen::Index k = 0; k < step.surface.thickness.size(); ++k)
      if (step.surface.wetted(k) == 1) {
        low = std::min(low, step.surface.thickness(k));
        high = std::max(high, step.surface.thickness(k));
      }
  if (low > high) return {0, 1};
  if (steps.size() > 1) low = std::min(low, 0.0);
  const double room =
      (std::max(std::abs(low), std::abs(high)) / 20 - (high - low)) / 2;
  if (room > 0) return {low - room, high + room};
  return {low, high};
}

}  // namespace

struct CoatLayer::Parts {
  Parts(const WindowData& shown, std::pair<double, double> range)
      : data(&shown), colours(ramp, range.first, range.second) {}

  const WindowData* data;
  std::size_t step = 0;
  double mm_a_pixel = 0;
  std::optional<Eigen::Index> marked;
  ColourScale colours;
  vtkSmartPointer<vtkTubeFilter> tube, casing;
  vtkSmartPointer<vtkActor> metal, coat, edge, mark, mark_rim;

  void place_coat() {
    const vtkSmartPointer<vtkPolyData> lines =
        coated_lines(data->steps[step].surface, kHalfWidth * mm_a_pixel);
    tube->SetInputData(lines);
    casing->SetInputData(lines);
  }
  void place_mark() const {
    for (const auto& actor : {mark, mark_rim}) {
      actor->SetVisibility(marked.has_value());
      if (!marked) continue;
      const auto& at = data->steps[step].surface.points.col(*marked);
      actor->SetPosition(at.x(), at.y(), actor->GetPosition()[2]);
    }
  }
};

CoatLayer::CoatLayer(const WindowData& data, double layer,
                     vtkRenderer* renderer)
    : parts_(std::make_unique<Parts>(data, range_of(data.steps))) {
  Parts& p = *parts_;
  p.metal = flat_actor(metal_of(data.steps.front().surface),
                       rgb(colour::pale_ink), 6 * layer);
  const vtkSmartPointer<vtkPolyData> lines =
      coated_lines(data.steps.front().surface, 0);
  p.tube = tubes_about(lines);
  p.casing = tubes_about(lines);
  p.edge = flat_actor(p.casing->GetOutput(), rgb(colour::ink), 7 * layer);
  p.edge->GetMapper()->SetInputConnection(p.casing->GetOutputPort());
  p.coat = flat_actor(p.tube->GetOutput(), {1, 1, 1}, 8 * layer);
  p.coat->GetMapper()->SetInputConnection(p.tube->GetOutputPort());
  p.coat->GetMapper()->ScalarVisibilityOn();
  p.coat->GetMapper()->SetLookupTable(p.colours.table());
  p.coat->GetMapper()->UseLookupTableScalarRangeOn();

  vtkNew<vtkRegularPolygonSource> disc;
  disc->SetNumberOfSides(32);
  disc->SetRadius(1);
  disc->Update();
  p.mark_rim = flat_actor(disc->GetOutput(), rgb(colour::ink), 9 * layer);
  p.mark = flat_actor(disc->GetOutput(), rgb(colour::coating), 10 * layer);
  for (const auto& actor : {p.metal, p.edge, p.coat, p.mark_rim, p.mark})
    renderer->AddActor(actor);
  show_step(data.steps.size() - 1);
}

CoatLayer::~CoatLayer() = default;

void CoatLayer::show_step(std::size_t step) {
  Parts& p = *parts_;
  p.step = step;
  const SurfaceData& surface = p.data->steps[step].surface;
  // Steps of layers may cut the surface elsewhere.
  if (p.marked && *p.marked >= surface.points.cols()) p.marked.reset();
  p.place_coat();
  vtkPolyDataMapper::SafeDownCast(p.metal->GetMapper())
      ->SetInputData(metal_of(surface));
  p.place_mark();
}

void CoatLayer::set_scale(double mm_a_pixel) {
  Parts& p = *parts_;
  if (mm_a_pixel == p.mm_a_pixel) return;
  p.mm_a_pixel = mm_a_pixel;
  p.place_coat();
  p.tube->SetRadius(kHalfWidth * mm_a_pixel);
  p.casing->SetRadius(kHalfCasing * mm_a_pixel);
  p.mark->SetScale((kMark - 2) * mm_a_pixel);
  p.mark_rim->SetScale(kMark * mm_a_pixel);
}

std::optional<Eigen::Index> CoatLayer::nearest(const Eigen::Vector2d& at,
                                               double reach) const {
  Eigen::Index found = 0;
  const double distance =
      (parts_->data->steps[parts_->step].surface.points.colwise() - at)
          .colwise()
          .norm()
          .minCoeff(&found);
  if (distance > reach) return std::nullopt;
  return found;
}

void CoatLayer::mark(std::optional<Eigen::Index> point) {
  parts_->marked = point;
  parts_->place_mark();
}

std::optional<Eigen::Index> CoatLayer::marked() const { return parts_->marked; }

const ColourScale& CoatLayer::colours() const { return parts_->colours; }

}  // namespace thinspot::viz
