#include "viz/window_paint.hpp"

#include "viz/numbers.hpp"

#include <vtkActor.h>
#include <vtkCellArray.h>
#include <vtkContourTriangulator.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>
#include <vtkSmartPointer.h>
#include <vtkTubeFilter.h>

#include <cmath>
#include <string>

namespace thinspot::viz {

Rgb rgb(const char* hex) {
  const auto part = [&](int at) {
    return std::stoi(std::string(hex + at, 2), nullptr, 16) / 255.0;
  };
  return {part(1), part(3), part(5)};
}

Rgb liquid_ramp(double share) {
  const Rgb pale{0.95, 0.965, 0.97};
  const Rgb dark = rgb(colour::potential);
  const auto between = [&](double a, double b) { return a + share * (b - a); };
  return {between(pale.red, dark.red), between(pale.green, dark.green),
          between(pale.blue, dark.blue)};
}

ColourScale::ColourScale(const std::function<Rgb(double)>& ramp, double low,
                         double high) {
  if (!(high - low > 1e-9 * std::abs(high)))
    high = low + 1e-3 + 0.1 * std::abs(low);
  const double step = nice_step(high - low, 5);
  // A hair over a round number, as rounding leaves it, counts as that number.
  const double first = std::floor(low / step + 1e-6);
  const double last = std::ceil(high / step - 1e-6);
  labels_ = static_cast<int>(std::lround(last - first)) + 1;

  constexpr int kColours = 256;
  vtkNew<vtkLookupTable> table;
  table->SetNumberOfTableValues(kColours);
  table->SetRange(step * first, step * last);
  for (int k = 0; k < kColours; ++k) {
    const Rgb c = ramp(double(k) / (kColours - 1));
    table->SetTableValue(k, c.red, c.green, c.blue);
  }
  const Rgb none = rgb(colour::not_judged);
  table->SetNanColor(none.red, none.green, none.blue, 1);
  table->Register(nullptr);
  table_ = {table.Get(), [](vtkLookupTable* t) { t->Delete(); }};
}

vtkLookupTable* ColourScale::table() const { return table_.get(); }

int ColourScale::labels() const { return labels_; }

vtkSmartPointer<vtkTubeFilter> tubes_about(vtkPolyData* lines) {
  auto tubes = vtkSmartPointer<vtkTubeFilter>::New();
  tubes->SetInputData(lines);
  tubes->SetNumberOfSides(8);
  tubes->CappingOn();
  return tubes;
}

vtkSmartPointer<vtkActor> flat_actor(vtkPolyData* data, const Rgb& c,
                                     double height) {
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(data);
  mapper->ScalarVisibilityOff();
  auto actor = vtkSmartPointer<vtkActor>::New();
  actor->SetMapper(mapper);
  actor->GetProperty()->LightingOff();
  actor->GetProperty()->SetColor(c.red, c.green, c.blue);
  actor->SetPosition(0, 0, height);
  return actor;
}

vtkSmartPointer<vtkPolyData> filled(const std::vector<Loop>& loops) {
  vtkNew<vtkContourTriangulator> triangulator;
  triangulator->TriangulationErrorDisplayOff();
  triangulator->SetInputData(lines_through(loops, true));
  triangulator->Update();
  return triangulator->GetOutput();
}

vtkSmartPointer<vtkPolyData> lines_through(const std::vector<Loop>& lines,
                                           bool closed) {
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> cells;
  for (const Loop& line : lines) {
    const vtkIdType first = points->GetNumberOfPoints();
    for (const Eigen::Vector2d& p : line)
      points->InsertNextPoint(p.x(), p.y(), 0);
    const auto count = static_cast<vtkIdType>(line.size());
    cells->InsertNextCell(static_cast<int>(count + (closed ? 1 : 0)));
    for (vtkIdType k = 0; k < count; ++k) cells->InsertCellPoint(first + k);
    if (closed) cells->InsertCellPoint(first);
  }
  auto data = vtkSmartPointer<vtkPolyData>::New();
  data->SetPoints(points);
  data->SetLines(cells);
  return data;
}

}  // namespace thinspot::viz
