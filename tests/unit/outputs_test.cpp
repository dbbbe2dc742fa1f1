#include "io/number_text.hpp"
#include "io/summary_json.hpp"
#include "io/tables_csv.hpp"
#include "io/vtk_data.hpp"
#include "io/words.hpp"
#include "mesh/errors.hpp"
#include "tests/unit/sample_result.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <vtkCell.h>
#include <vtkDataArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <algorithm>
#include <limits>
#include <sstream>

using namespace thinspot;
using namespace thinspot::io;
using Catch::Matchers::Contains;
using thinspot::tests::sample_result;

namespace {

nlohmann::json summary_of(const solver::Result& result) {
  return nlohmann::json::parse(
      summary_json(result, words_for(result), {{"report.html", 12}}));
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

}  // namespace

TEST_CASE("a band shows where it is wider than the rounding", "[outputs]") {
  CHECK(banded(5.734, {5.734, 5.734}, "µm") == "5.73 µm");
  CHECK(banded(5.734, {5.731, 5.737}, "µm") == "5.73 µm");
  CHECK(banded(5.734, {5.6, 5.868}, "µm") == "5.73 µm (5.60 to 5.87)");
  CHECK(banded(5.734, {5.1, 6.4}, "µm") == "5.7 µm (5.1 to 6.4)");
  CHECK(banded(12.3, {11, 13.6}, "µm") == "12 µm (11 to 14)");
  // Value and band to the same place, whatever zeros that takes.
  CHECK(banded(5.4, {5.1, 5.53}, "µm") == "5.40 µm (5.10 to 5.53)");
  CHECK(banded(9.996, {9.7, 10.2}, "µm") == "10.0 µm (9.7 to 10.2)");
  CHECK(banded(1234, {1180, 1289}, "mA") == "1230 mA (1180 to 1290)");
  CHECK(banded(0, {0, 0.31}, "µm") == "0.00 µm (0.00 to 0.31)");
}

TEST_CASE("durations read as on a clock", "[outputs]") {
  CHECK(duration_text(45) == "45 s");
  CHECK(duration_text(2400) == "40 min");
  CHECK(duration_text(12000) == "3 h 20 min");
  CHECK(duration_text(14400) == "4 h");
}

TEST_CASE("the verdict says how far off and what it takes", "[outputs]") {
  solver::Result result = sample_result();
  const std::string missed = words_for(result).verdict;
  CHECK_THAT(missed, Contains("Target not met"));
  CHECK_THAT(missed, Contains("12 µm (11 to 13)"));
  CHECK_THAT(missed, Contains("3 µm short of the 15 µm wanted"));
  CHECK_THAT(missed, Contains("about 50 min (56 min to be on the safe "
                              "side) in place of 40 min"));

  result.target->time_needed.reset();
  CHECK_THAT(words_for(result).verdict, Contains("longer does not help"));

  result.target =
      solver::TargetResult{true, 11e-6, 12e-6, {10.8e-6, 13.2e-6}, 0, 2200.0};
  const std::string unsure = words_for(result).verdict;
  CHECK_THAT(unsure, Contains("Target met: 12 µm (11 to 13)"));
  CHECK_THAT(unsure, Contains("Not for certain"));
  // 2200 s at 12 µm, to 11 µm at the low end of 10.8 µm.
  CHECK_THAT(unsure, Contains("plate 41 min in place of 40 min"));

  result.target =
      solver::TargetResult{true, 8e-6, 12e-6, {12e-6, 12e-6}, 0, 1600.0};
  const std::string sure = words_for(result).verdict;
  CHECK_THAT(sure, !Contains("Not for certain"));
  CHECK_THAT(sure, Contains("27 min would do in place of 40 min"));

  result.target.reset();
  CHECK_THAT(words_for(result).verdict, Contains("No target"));
}

TEST_CASE("thin and heavy spots are named, an even coat is not", "[outputs]") {
  solver::Result result = sample_result();
  CHECK(words_for(result).thin ==
        "Thinnest: 12 µm (11 to 13), middle of the left face.");
  CHECK_THAT(words_for(result).heavy, Contains("upper right corner"));
  // Spots that read alike are said once.
  auto& thin = result.parts[0].thin_spots;
  thin.push_back(thin[0]);
  thin.push_back({{0, 0}, 0, "left", "at the tip", 13.97e-6});
  CHECK(words_for(result).thin ==
        "Thinnest: 12 µm (11 to 13), middle of the left face. Next: 14 µm, at "
        "the tip.");
  result.parts[0].thickness.value = {17.5e-6, 17.6e-6, 17.7e-6};
  CHECK_THAT(words_for(result).thin, Contains("even") && !Contains("left"));
}

TEST_CASE("the meter line follows what the supply holds", "[outputs]") {
  solver::Result result = sample_result();
  CHECK_THAT(words_for(result).meter.front(),
             Contains("At 0.33 A") && Contains("0.42 V (0.36 to 0.48)"));
  // What it reads, half, twice, the look before; then the leads.
  CHECK(words_for(result).meter.size() == 5);

  result.cell.voltage_band = {0.2, 0.9};
  CHECK(words_for(result).meter.size() == 6);
  CHECK_THAT(words_for(result).meter[4], Contains("measure"));

  result.cell.limited_by = "voltage limit";
  CHECK_THAT(words_for(result).meter.front(), Contains("voltage limit") &&
                                                  Contains("ammeter") &&
                                                  Contains("0.33 A"));
}

TEST_CASE("the summary carries every number in its unit", "[outputs]") {
  const nlohmann::json s = summary_of(sample_result());
  CHECK(s["schema"] == 1);
  CHECK(s["program"]["name"] == "thinspot");
  CHECK(s["section"] == "planar");
  CHECK(s["view"] == "side");
  CHECK(s["depth_mm"] == 23.6);
  CHECK(s["cell"]["voltage_V_band"] == nlohmann::json({0.36, 0.48}));
  CHECK(s["part"]["area_cm2"] == 16.0);
  CHECK(s["part"]["mass_g"] == 0.253);
  CHECK(s["part"]["current_density_A_dm2"]["max"] == 3.2);
  CHECK(s["part"]["thickness_um"]["min_band"] == nlohmann::json({10.8, 13.2}));
  CHECK(s["part"]["faces"][1]["judged"] == false);
  CHECK(s["part"]["faces"][1]["letter"] == "B");
  CHECK(s["words"]["todo"].size() == 1);
  CHECK(s["part"]["thin_spots"][0]["where"] == "middle of the left face");
  CHECK(s["part"]["thin_spots"][0]["y_mm"] == 5.0);
  CHECK(s["parts"].size() == 1);
  CHECK(s["parts"][0] == s["part"]);
  CHECK(s["probes"][0]["thickness_um"] == 12.0);
  CHECK(s["steps"][0]["duration_min"] == 40.0);
  CHECK(s["anodes"][0]["mean_A_dm2"] == 2.35);
  CHECK(s["wires"][0]["area_cm2"] == 0.8);
  CHECK(s["wagner"]["length_mm"] == 30.0);
  CHECK(s["target"]["met"] == false);
  CHECK(s["target"]["least_um"] == 12.0);
  CHECK(s["target"]["time_needed_min"] == 50.0);
  CHECK(s["solution"]["temperature_degC"] == 25.0);
  CHECK(s["assumed"][0]["key"] == "part.edge_radius");
  CHECK(s["mesh"]["triangles"] == 2);
  CHECK(s["mesh"]["dofs"] == 9);
  CHECK(s["files"][0]["name"] == "report.html");
  CHECK(s["time_s"]["solve"] == 0.2);
}

TEST_CASE("the summary tells each figure's mesh error", "[outputs]") {
  const nlohmann::json s = summary_of(sample_result());
  CHECK(s["cell"]["voltage_V_mesh_error"] == 4e-5);
  CHECK(s["cell"]["resistance_ohm_mesh_error"] == 1.2e-4);
  const nlohmann::json& i = s["part"]["current_density_A_dm2"];
  CHECK(i["min_mesh_error"] == 0.0012);
  CHECK(i["mean_mesh_error"] == 0.0002);
  CHECK(i["max_mesh_error"] == 0.0034);
  const nlohmann::json& t = s["part"]["thickness_um"];
  CHECK(t["min_mesh_error"] == 0.012);
  CHECK(t["mean_mesh_error"] == 0.002);
  CHECK(t["max_mesh_error"] == 0.034);
  CHECK(s["probes"][0]["current_density_A_dm2_mesh_error"] == 0.0015);
  CHECK(s["probes"][0]["thickness_um_mesh_error"] == 0.015);
  CHECK(s["target"]["least_um_mesh_error"] == 0.012);
  CHECK(s["mesh"]["refinements"] == 2);
  CHECK(s["mesh"]["tolerance"] == 0.0002);
  CHECK(s["mesh"]["within_tolerance"] == false);
}

TEST_CASE("what the page is made from is the same every time", "[outputs]") {
  solver::Result result = sample_result();
  const std::string first = summary_json(result, words_for(result));
  result.total_seconds = 9;
  CHECK(summary_json(result, words_for(result)) == first);
  CHECK(nlohmann::json::parse(first).count("time_s") == 0);
}

TEST_CASE("six digits are kept, and none that is no number", "[outputs]") {
  solver::Result result = sample_result();
  result.cell.current = 0.123456789;
  CHECK(summary_of(result)["cell"]["current_A"] == 0.123457);
  result.parts[0].mass = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(summary_of(result), NoResultError);
  CHECK_THROWS_WITH(summary_of(result), Contains("part.mass_g"));
}

TEST_CASE("no plating time reaches a bare spot: null", "[outputs]") {
  solver::Result result = sample_result();
  result.target->time_needed.reset();
  CHECK(summary_of(result)["target"]["time_needed_min"].is_null());
}

TEST_CASE("the table has one row a surface point", "[outputs]") {
  const auto lines = lines_of(surface_csv(sample_result()));
  REQUIRE(lines.size() == 5);
  CHECK(lines[0] ==
        "part,loop,arc_mm,x_mm,y_mm,normal_x,normal_y,face,wetted,judged,"
        "area_cm2,current_density_A_dm2,thickness_um");
  CHECK(lines[1] == "part,0,0,0,0,0,1,left,1,1,4,2,12");
  CHECK(lines[2] == "part,0,10,10,0,0,1,\"right, \"\"far\"\"\",1,0,4,2,14");
}

TEST_CASE("the table refuses a number that is none", "[outputs]") {
  solver::Result result = sample_result();
  result.parts[0].surface[0].thickness =
      std::numeric_limits<double>::infinity();
  CHECK_THROWS_AS(surface_csv(result), NoResultError);
}

TEST_CASE("the liquid comes back through VTK's reader", "[outputs]") {
  const solver::Result result = sample_result();
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(section_vtu(result));
  reader->Update();
  vtkUnstructuredGrid* grid = reader->GetOutput();
  REQUIRE(grid->GetNumberOfPoints() == 9);
  REQUIRE(grid->GetNumberOfCells() == 2);
  CHECK(grid->GetCellType(0) == VTK_QUADRATIC_TRIANGLE);
  for (vtkIdType cell = 0; cell < 2; ++cell)
    for (vtkIdType k = 0; k < 6; ++k)
      CHECK(grid->GetCell(cell)->GetPointId(static_cast<int>(k)) ==
            result.mesh.triangles(k, cell));
  CHECK(grid->GetPoint(2)[1] == Approx(10));
  vtkDataArray* potential = grid->GetPointData()->GetArray("potential_V");
  REQUIRE(potential);
  CHECK(potential->GetComponent(8, 0) == result.potential[8]);
  vtkDataArray* i = grid->GetPointData()->GetArray("current_density_A_dm2");
  REQUIRE(i);
  REQUIRE(i->GetNumberOfComponents() == 3);
  CHECK(i->GetComponent(4, 1) == 1.5);
}

TEST_CASE("the surface comes back through VTK's reader", "[outputs]") {
  solver::Result result = sample_result();
  // Half of an axisymmetric part, walked from axis to axis, is an open line.
  const bool axisymmetric = GENERATE(false, true);
  CAPTURE(axisymmetric);
  if (axisymmetric) result.section.cut = mesh::Cut::axisymmetric;
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(surface_vtp(result));
  reader->Update();
  vtkPolyData* surface = reader->GetOutput();
  REQUIRE(surface->GetNumberOfPoints() == 4);
  REQUIRE(surface->GetNumberOfLines() == 1);
  vtkCell* line = surface->GetCell(0);
  REQUIRE(line->GetNumberOfPoints() == (axisymmetric ? 4 : 5));
  CHECK(line->GetPointId(0) == 0);
  CHECK(line->GetPointId(3) == 3);
  const auto value = [&](const char* name, vtkIdType k) {
    vtkDataArray* array = surface->GetPointData()->GetArray(name);
    REQUIRE(array);
    return array->GetComponent(k, 0);
  };
  CHECK(value("thickness_um", 2) == Approx(28));
  CHECK(value("current_density_A_dm2", 0) == Approx(2));
  CHECK(value("face", 1) == 1);
  CHECK(value("judged", 1) == 0);
  CHECK(value("area_cm2", 3) == Approx(4));
  CHECK(value("arc_mm", 3) == Approx(30));
}

TEST_CASE("the axis is no surface wherever the walk starts", "[outputs]") {
  solver::Result result = sample_result();
  result.section.cut = mesh::Cut::axisymmetric;
  // The walk now begins at the outer lower corner; points 2 and 3 lie on the
  // axis.
  auto& surface = result.parts[0].surface;
  std::rotate(surface.begin(), surface.begin() + 1, surface.end());
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(surface_vtp(result));
  reader->Update();
  vtkCell* line = reader->GetOutput()->GetCell(0);
  REQUIRE(line->GetNumberOfPoints() == 4);
  for (int k = 0; k < 4; ++k) CHECK(line->GetPointId(k) == (3 + k) % 4);
}

TEST_CASE("the time line names both data files", "[outputs]") {
  CHECK_THAT(steps_pvd(sample_result()), Contains("timestep=\"40\"") &&
                                             Contains("section.vtu") &&
                                             Contains("surface.vtp"));
}
