// part.vtp: the part's surface as a body, for viewers of VTK files.

#include "io/vtk_data.hpp"
#include "tests/unit/sample_result.hpp"

#include <catch2/catch.hpp>

#include <vtkCell.h>
#include <vtkDataArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <Eigen/Geometry>

#include <cmath>
#include <numbers>
#include <string>

using namespace thinspot;
using namespace thinspot::io;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Eigen::Vector3d;

namespace {

constexpr double pi = std::numbers::pi;

vtkSmartPointer<vtkPolyData> read(const std::string& text) {
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(text);
  reader->Update();
  REQUIRE(reader->GetErrorCode() == 0);
  return reader->GetOutput();
}

Vector3d point(vtkPolyData* body, vtkIdType k) {
  return Vector3d(body->GetPoint(k));
}

/// Twice the vector area of a flat quad: along the normal that its corners turn
/// about counter-clockwise.
Vector3d twice_area(vtkPolyData* body, vtkIdType cell) {
  vtkCell* quad = body->GetCell(cell);
  REQUIRE(quad->GetNumberOfPoints() == 4);
  const auto corner = [&](int k) { return point(body, quad->GetPointId(k)); };
  return (corner(2) - corner(0)).cross(corner(3) - corner(1));
}

double area(vtkPolyData* body) {
  double sum = 0;
  for (vtkIdType k = 0; k < body->GetNumberOfCells(); ++k)
    sum += twice_area(body, k).norm() / 2;
  return sum;
}

/// Every cell turns its front away from a point inside.
void check_fronts(vtkPolyData* body, const Vector3d& inside) {
  for (vtkIdType k = 0; k < body->GetNumberOfCells(); ++k) {
    const Vector3d corner = point(body, body->GetCell(k)->GetPointId(1));
    CHECK(twice_area(body, k).dot(corner - inside) > 0);
  }
}

/// A ring of so many points of radius 2 mm, whose middle is 10 mm off the axis.
solver::Result ring(std::size_t count, mesh::Cut cut) {
  solver::Result result = sample_result();
  result.section.cut = cut;
  auto& surface = result.parts[0].surface;
  const solver::SurfacePoint like = surface[0];
  surface.assign(count, like);
  for (std::size_t k = 0; k < count; ++k) {
    const double a = 2 * pi * double(k) / double(count);
    surface[k].normal = {std::cos(a), std::sin(a)};
    surface[k].at = mesh::Point(0.01, 0.05) + 0.002 * surface[k].normal;
  }
  return result;
}

}  // namespace

TEST_CASE("a planar part is a sheet as deep as the section", "[part]") {
  const solver::Result result = sample_result();
  const auto body = read(part_vtp(result));
  REQUIRE(body->GetNumberOfPoints() == 8);
  REQUIRE(body->GetNumberOfCells() == 4);
  // A square of 10 mm, 23.6 mm deep.
  CHECK(area(body) == Approx(40 * 23.6));
  CHECK(body->GetBounds()[4] == Approx(-23.6));
  CHECK(body->GetBounds()[5] == 0);
  check_fronts(body, {5, 5, -11.8});
  vtkDataArray* thickness = body->GetPointData()->GetArray("thickness_um");
  vtkDataArray* density =
      body->GetPointData()->GetArray("current_density_A_dm2");
  REQUIRE(thickness);
  REQUIRE(density);
  for (vtkIdType k = 0; k < 8; ++k) {
    const auto& p = result.parts[0].surface[static_cast<std::size_t>(k / 2)];
    CHECK(point(body, k).head<2>().isApprox(1000 * p.at));
    CHECK(thickness->GetComponent(k, 0) == 1e6 * p.thickness);
    CHECK(density->GetComponent(k, 0) == p.current_density / 100);
  }
}

TEST_CASE("an axisymmetric part is turned about its axis", "[part]") {
  solver::Result result = sample_result();
  result.section.cut = mesh::Cut::axisymmetric;
  const auto body = read(part_vtp(result));
  // A cylinder of 10 mm in radius and height: lower end, side, upper end.
  constexpr int sectors = 60;
  REQUIRE(body->GetNumberOfPoints() == 4 * sectors);
  REQUIRE(body->GetNumberOfCells() == 3 * sectors);
  vtkDataArray* thickness = body->GetPointData()->GetArray("thickness_um");
  vtkDataArray* normals = body->GetPointData()->GetNormals();
  REQUIRE(thickness);
  REQUIRE(normals);
  for (vtkIdType k = 0; k < body->GetNumberOfPoints(); ++k) {
    const auto& p =
        result.parts[0].surface[static_cast<std::size_t>(k / sectors)];
    const Vector3d here = point(body, k);
    CHECK(std::hypot(here.x(), here.z()) ==
          Approx(1000 * p.at.x()).margin(1e-9));
    CHECK(here.y() == Approx(1000 * p.at.y()));
    CHECK(thickness->GetComponent(k, 0) == 1e6 * p.thickness);
  }
  // Of a prism with so many sides.
  CHECK(area(body) == Approx(sectors * (2 * 100 * std::sin(pi / sectors) +
                                        100 * std::sin(2 * pi / sectors))));
  vtkIdType flat = 0;
  for (vtkIdType k = 0; k < body->GetNumberOfCells(); ++k) {
    const Vector3d front = twice_area(body, k);
    flat += std::abs(front.y()) > 0.99 * front.norm();
    const Vector3d corner = point(body, body->GetCell(k)->GetPointId(2));
    CHECK(front.dot(corner - Vector3d(0, 5, 0)) > 0);
  }
  CHECK(flat == 2 * sectors);
}

TEST_CASE("a closed loop off the axis becomes a closed ring", "[part]") {
  const auto body = read(part_vtp(ring(100, mesh::Cut::axisymmetric)));
  CHECK(body->GetNumberOfPoints() == 100 * 60);
  CHECK(body->GetNumberOfCells() == 100 * 60);
  // Pappus: its length times the way of its middle. Chords in place of arcs
  // make it less by 1/6 (pi/60)^2 and 1/6 (pi/100)^2 and a share as small.
  CHECK(area(body) == Approx(2 * pi * 2 * 2 * pi * 10).epsilon(2e-3));
  vtkDataArray* normals = body->GetPointData()->GetNormals();
  REQUIRE(normals);
  for (vtkIdType k = 0; k < body->GetNumberOfPoints(); ++k) {
    const Vector3d here = point(body, k);
    const Vector3d middle =
        10 * Vector3d(here.x(), 0, here.z()).normalized() + Vector3d(0, 50, 0);
    CHECK((here - middle).isApprox(2 * Vector3d(normals->GetTuple(k)), 1e-5));
  }
}

TEST_CASE("a surface of very many points makes no more cells than allowed",
          "[part]") {
  // More than there may be cells, and more than may be turned into 24 sectors.
  const auto planar = read(part_vtp(ring(250'000, mesh::Cut::side)));
  const auto turned = read(part_vtp(ring(30'000, mesh::Cut::axisymmetric)));
  for (vtkPolyData* body : {planar.Get(), turned.Get()}) {
    const auto cells = static_cast<std::size_t>(body->GetNumberOfCells());
    CHECK(cells <= most_part_cells);
    CHECK(cells > most_part_cells / 2);
  }
  // Nothing of its shape is lost by that: closed, of the same length.
  CHECK(area(planar) == Approx(2 * pi * 2 * 23.6).epsilon(1e-6));
}

TEST_CASE("each of several copies has its own sheet", "[part]") {
  solver::Result result = sample_result();
  result.parts.push_back(result.parts[0]);
  for (auto& p : result.parts[1].surface) p.at.x() += 0.03;
  const auto body = read(part_vtp(result));
  CHECK(body->GetNumberOfCells() == 8);
  CHECK(area(body) == Approx(2 * 40 * 23.6));
  vtkDataArray* part = body->GetPointData()->GetArray("part");
  REQUIRE(part);
  CHECK(part->GetComponent(0, 0) == 0);
  CHECK(part->GetComponent(8, 0) == 1);
}

TEST_CASE("a viewer that opens a file colours it by what counts", "[part]") {
  const solver::Result result = sample_result();
  for (const std::string& text : {surface_vtp(result), part_vtp(result)}) {
    const auto data = read(text);
    REQUIRE(data->GetPointData()->GetScalars());
    CHECK(std::string(data->GetPointData()->GetScalars()->GetName()) ==
          "thickness_um");
    REQUIRE(data->GetPointData()->GetNormals());
  }
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(section_vtu(result));
  reader->Update();
  vtkPointData* liquid = reader->GetOutput()->GetPointData();
  REQUIRE(liquid->GetScalars());
  REQUIRE(liquid->GetVectors());
  CHECK(std::string(liquid->GetScalars()->GetName()) == "potential_V");
  CHECK(std::string(liquid->GetVectors()->GetName()) ==
        "current_density_A_dm2");
}

TEST_CASE("under lacquer the last points stop short of the axis", "[part]") {
  solver::Result result = sample_result();
  result.section.cut = mesh::Cut::axisymmetric;
  auto& surface = result.parts[0].surface;
  for (const std::size_t k : {0, 3}) surface[k].at.x() = 2e-4;
  // The outline tells that the part runs along the axis all the same.
  mesh::PlacedSolid solid;
  solid.outline.loops = {{mesh::Curve{}}};
  solid.outline.loops[0][0].face = "axis";
  result.section.solids = {solid};
  const auto lines = read(surface_vtp(result));
  REQUIRE(lines->GetNumberOfLines() == 1);
  vtkCell* line = lines->GetCell(0);
  REQUIRE(line->GetNumberOfPoints() == 4);
  for (int k = 0; k < 4; ++k) CHECK(line->GetPointId(k) == k);
  CHECK(read(part_vtp(result))->GetNumberOfCells() == 3 * 60);
}

TEST_CASE("one step that moves the part has a file of its own", "[part]") {
  solver::Result result = sample_result();
  CHECK_FALSE(has_step_files(result));
  result.steps[0].motion.flip = true;
  CHECK(has_step_files(result));
  CHECK_THAT(steps_pvd(result),
             Contains("step_1.vtp") && !Contains("surface.vtp"));
}
