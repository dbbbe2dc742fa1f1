#include "viz/liquid_layer.hpp"

#include "viz/liquid_borders.hpp"
#include "viz/window_paint.hpp"

#include <vtkActor.h>
#include <vtkCellArray.h>
#include <vtkCellType.h>
#include <vtkCleanPolyData.h>
#include <vtkContourFilter.h>
#include <vtkDataSetSurfaceFilter.h>
#include <vtkDoubleArray.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>
#include <vtkRenderer.h>
#include <vtkSmartPointer.h>
#include <vtkStripper.h>
#include <vtkTubeFilter.h>
#include <vtkUnstructuredGrid.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr const char* kPotential = "potential";
constexpr const char* kDensity = "current density";
/// Lines of equal potential.
constexpr int kLines = 15;
/// On the screen [pixels].
constexpr double kHalfLine = 0.5, kHalfWall = 0.8;
/// At sharp corners current density has no bound: the darkest colour is for
/// this share of the nodes and what lies above.
constexpr double kBelowDarkest = 0.97;

vtkSmartPointer<vtkDoubleArray> array_of(const char* name,
                                         const Eigen::VectorXd& values) {
  auto array = vtkSmartPointer<vtkDoubleArray>::New();
  array->SetName(name);
  for (const double v : values) array->InsertNextValue(v);
  return array;
}

/// Plain triangles, small enough that curved walls look curved.
vtkSmartPointer<vtkPolyData> plain_triangles(const LiquidData& liquid) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  for (const auto& p : liquid.nodes.colwise())
    points->InsertNextPoint(p.x(), p.y(), 0);
  vtkNew<vtkCellArray> cells;
  for (const auto& t : liquid.triangles.colwise()) {
    cells->InsertNextCell(6);
    for (const int node : t) cells->InsertCellPoint(node);
  }
  vtkNew<vtkUnstructuredGrid> grid;
  grid->SetPoints(points);
  grid->SetCells(VTK_QUADRATIC_TRIANGLE, cells);
  grid->GetPointData()->SetScalars(array_of(kPotential, liquid.potential));
  grid->GetPointData()->AddArray(array_of(kDensity, liquid.current_density));
  vtkNew<vtkDataSetSurfaceFilter> surface;
  surface->SetInputData(grid);
  surface->SetNonlinearSubdivisionLevel(3);
  surface->Update();
  return surface->GetOutput();
}

vtkSmartPointer<vtkPolyData> equipotentials(vtkPolyData* triangles, double low,
                                            double high) {
  vtkNew<vtkContourFilter> contours;
  contours->SetInputData(triangles);
  for (int k = 1; k <= kLines; ++k)
    contours->SetValue(k - 1, low + (high - low) * k / (kLines + 1));
  vtkNew<vtkCleanPolyData> clean;
  clean->SetInputConnection(contours->GetOutputPort());
  vtkNew<vtkStripper> joined;
  joined->SetInputConnection(clean->GetOutputPort());
  joined->Update();
  return joined->GetOutput();
}

double value_below(Eigen::VectorXd values, double share) {
  const auto at =
      values.begin() +
      static_cast<Eigen::Index>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

/// The stretches of all borders that are not at a part.
std::vector<Loop> walls_of(const std::vector<Border>& borders) {
  std::vector<Loop> walls;
  for (const Border& b : borders) {
    bool on = false;
    for (std::size_t k = 0; k < b.points.size(); ++k) {
      if (!b.at_part[k] && !on) walls.push_back({b.points[k]});
      on = !b.at_part[k];
      if (on) walls.back().push_back(b.points[(k + 1) % b.points.size()]);
    }
  }
  return walls;
}

/// Pale liquid and grey metal, which hold for every step.
std::vector<vtkSmartPointer<vtkActor>> standing(
    const std::vector<Border>& borders, double layer) {
  std::vector<vtkSmartPointer<vtkActor>> actors;
  double outer = 0;
  for (const Border& b : borders) outer = std::max(outer, b.area);
  for (const Border& b : borders) {
    const bool of_part =
        std::find(b.at_part.begin(), b.at_part.end(), false) == b.at_part.end();
    if (b.area < 0 && of_part) continue;
    // Liquid within metal, as in a tube, lies over it.
    const double height = b.area == outer ? 0 : b.area < 0 ? 1 : 2;
    actors.push_back(flat_actor(
        filled({b.points}),
        rgb(b.area > 0 ? colour::mirrored_liquid : colour::not_judged),
        height * layer));
  }
  return actors;
}

}  // namespace

struct LiquidLayer::Parts {
  explicit Parts(const LiquidData& liquid)
      : potential(liquid_ramp, liquid.potential.minCoeff(),
                  liquid.potential.maxCoeff()),
        density(liquid_ramp, 0,
                value_below(liquid.current_density, kBelowDarkest)) {}

  ColourScale potential, density;
  vtkSmartPointer<vtkActor> field, lines;
  vtkSmartPointer<vtkTubeFilter> line_tubes, wall_tubes;
  LiquidColour shown = LiquidColour::potential;
};

LiquidLayer::LiquidLayer(const LiquidData& liquid, const SurfaceData& part,
                         double layer, vtkRenderer* renderer)
    : parts_(std::make_unique<Parts>(liquid)) {
  const vtkSmartPointer<vtkPolyData> triangles = plain_triangles(liquid);
  parts_->field = flat_actor(triangles, {1, 1, 1}, 3 * layer);
  parts_->field->GetMapper()->ScalarVisibilityOn();
  parts_->field->GetMapper()->InterpolateScalarsBeforeMappingOn();
  parts_->field->GetMapper()->SetScalarModeToUsePointFieldData();
  const std::vector<Border> borders = borders_of(liquid, part);
  parts_->line_tubes = tubes_about(equipotentials(
      triangles, liquid.potential.minCoeff(), liquid.potential.maxCoeff()));
  parts_->wall_tubes = tubes_about(lines_through(walls_of(borders), false));
  parts_->lines = flat_actor(parts_->line_tubes->GetOutput(),
                             rgb(colour::current), 4 * layer);
  parts_->lines->GetProperty()->SetOpacity(0.4);
  parts_->lines->GetMapper()->SetInputConnection(
      parts_->line_tubes->GetOutputPort());
  const auto walls =
      flat_actor(parts_->wall_tubes->GetOutput(), rgb(colour::wall), 5 * layer);
  walls->GetMapper()->SetInputConnection(parts_->wall_tubes->GetOutputPort());
  for (const auto& actor : standing(borders, layer)) renderer->AddActor(actor);
  renderer->AddActor(walls);
  renderer->AddActor(parts_->field);
  renderer->AddActor(parts_->lines);
  colour_by(LiquidColour::potential);
}

LiquidLayer::~LiquidLayer() = default;

void LiquidLayer::colour_by(LiquidColour field) {
  parts_->shown = field;
  vtkMapper* mapper = parts_->field->GetMapper();
  mapper->SelectColorArray(field == LiquidColour::potential ? kPotential
                                                            : kDensity);
  mapper->SetLookupTable(colours().table());
  mapper->UseLookupTableScalarRangeOn();
}

void LiquidLayer::set_known(bool known) {
  parts_->field->SetVisibility(known);
  parts_->lines->SetVisibility(known);
}

void LiquidLayer::set_scale(double mm_a_pixel) {
  parts_->line_tubes->SetRadius(kHalfLine * mm_a_pixel);
  parts_->wall_tubes->SetRadius(kHalfWall * mm_a_pixel);
}

const ColourScale& LiquidLayer::colours() const {
  return parts_->shown == LiquidColour::potential ? parts_->potential
                                                  : parts_->density;
}

std::string LiquidLayer::bar_title() const {
  return parts_->shown == LiquidColour::potential
             ? "liquid:\npotential, V"
             : "liquid: current\ndensity, A/dm\u00B2\n(darkest: and more)";
}

}  // namespace thinspot::viz
