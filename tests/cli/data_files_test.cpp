#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <vtkCell.h>
#include <vtkCellType.h>
#include <vtkDataArray.h>
#include <vtkDataSet.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace thinspot::tests;
namespace fs = std::filesystem;

namespace {

/// Relative rounding of a number printed with six digits.
constexpr double printed = 5e-6;

struct Solved {
  Scratch scratch;
  nlohmann::json summary;
  fs::path folder;

  explicit Solved(const std::string& name)
      : Solved(fs::path(THINSPOT_SOURCE) / "cases" / (name + ".toml"), "") {}

  /// @param text  of the case, put into the file first; "": it is there
  Solved(fs::path file, const std::string& text) {
    if (!text.empty()) put(file = scratch / file, text);
    folder = scratch / "out";
    const Run run = run_thinspot(
        scratch.path(),
        {"solve", file.string(), "--quiet", "--out", folder.string()});
    CAPTURE(run.err);
    REQUIRE(run.status == 0);
    summary = nlohmann::json::parse(content(folder / "summary.json"));
  }
};

std::vector<double> column(vtkDataSet* data, const char* name) {
  CAPTURE(name);
  vtkDataArray* array = data->GetPointData()->GetArray(name);
  REQUIRE(array);
  REQUIRE(array->GetNumberOfTuples() == data->GetNumberOfPoints());
  std::vector<double> values;
  for (vtkIdType k = 0; k < array->GetNumberOfTuples(); ++k) {
    values.push_back(array->GetComponent(k, 0));
    CHECK(std::isfinite(values.back()));
  }
  return values;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t k = 0; k < a.size(); ++k) sum += a[k] * b[k];
  return sum;
}

/// Two tokens one behind the other before one sheet, their lower rims
/// lacquered, the upper one reaching 5 mm out of the liquid; a bar takes
/// current beside them and a sheet hangs in the tank unconnected.
const char* const crowded = R"(
schema = 1
title = "two tokens"
section = "planar"
[tank]
shape = "box"
width = "120 mm"
height = "120 mm"
level = "100 mm"
[solution]
name = "acid copper"
metal = "copper"
conductivity = "20 S/m"
[part]
shape = "coin"
diameter = "30 mm"
thickness = "3 mm"
edge_radius = "1 mm"
metal = "brass"
[rack]
at = [["60 mm", "35 mm"], ["60 mm", "90 mm"]]
[[mask]]
faces = ["lower rim"]
[[anode]]
name = "sheet"
shape = "plate"
width = "2 mm"
height = "80 mm"
at = ["10 mm", "50 mm"]
metal = "copper"
[[thief]]
name = "bar"
shape = "rod"
diameter = "4 mm"
at = ["80 mm", "62 mm"]
[[floating]]
name = "old sheet"
shape = "plate"
width = "2 mm"
height = "60 mm"
at = ["100 mm", "50 mm"]
metal = "copper"
[cathode]
polarization_resistance = "2.6 ohm cm2"
[supply]
current = "0.6 A"
[[step]]
duration = "40 min"
)";

std::string some_case() {
  return GENERATE(as<std::string>{}, "token_one_sheet", "token_two_sheets",
                  "rod_in_tube");
}

}  // namespace

TEST_CASE("the surface data hold the summary's numbers") {
  const std::string name = some_case();
  CAPTURE(name);
  const Solved solved(name);
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->SetFileName((solved.folder / "surface.vtp").c_str());
  reader->Update();
  vtkPolyData* surface = reader->GetOutput();
  REQUIRE(surface->GetNumberOfPoints() > 20);
  CHECK(surface->GetNumberOfLines() == 1);

  const auto thickness = column(surface, "thickness_um");
  const auto density = column(surface, "current_density_A_dm2");
  const auto area = column(surface, "area_cm2");
  const auto wetted = column(surface, "wetted");
  const auto& part = solved.summary["part"];

  // Sums over the points' shares of the area: the same quadrature as the
  // program's own, so equal to the digits printed.
  double whole = 0;
  for (const double share : area) whole += share;
  CHECK(whole == Approx(part["area_cm2"].get<double>()).epsilon(printed));
  CHECK(dot(area, thickness) / whole ==
        Approx(part["thickness_um"]["mean"].get<double>()).epsilon(printed));
  // A/dm2 times cm2 is a hundredth of an ampere.
  CHECK(dot(area, density) / 100 ==
        Approx(part["current_A"].get<double>()).epsilon(printed));
  // Faraday: g = um cm2 density 1e-4 [g/cm3 cm3].
  const double g_cm3 =
      solved.summary["solution"]["metal_density_g_cm3"].get<double>();
  CHECK(dot(area, thickness) * 1e-4 * g_cm3 ==
        Approx(part["mass_g"].get<double>()).epsilon(2 * printed));

  // Least and largest are averages over a window of 0.1 mm. An average lies
  // between the least and the largest value in its window. Values at points are
  // joined by parabolas through three points, which leave the range of those
  // three by at most an eighth of it on either side (the most that the vertex
  // of a parabola through three values, the outer two an interval apart, lies
  // outside them); so every window is bracketed by the points in it, the next
  // two on either side, and an eighth of their range.
  const double window = 0.1;
  std::vector<std::size_t> wet;
  for (std::size_t k = 0; k < wetted.size(); ++k)
    if (wetted[k] == 1) wet.push_back(k);
  // The chord is never longer than the arc: at worst too much is taken in.
  const auto apart = [&](std::size_t a, std::size_t b) {
    double p[3], q[3];
    surface->GetPoint(static_cast<vtkIdType>(a), p);
    surface->GetPoint(static_cast<vtkIdType>(b), q);
    return std::hypot(p[0] - q[0], p[1] - q[1]);
  };
  double least_low = 1e300, least_high = 1e300, most_low = 0, most_high = 0;
  const std::size_t n = wet.size();
  for (std::size_t k = 0; k < n; ++k) {
    double low = thickness[wet[k]], high = low;
    for (const int way : {-1, 1}) {
      int beyond = 0;
      for (std::size_t step = 1; step < n && beyond < 2; ++step) {
        const std::size_t j = wet[(k + n + (way > 0 ? step : n - step)) % n];
        if (apart(j, wet[k]) > window) ++beyond;
        low = std::min(low, thickness[j]);
        high = std::max(high, thickness[j]);
      }
    }
    const double room = (high - low) / 8;
    least_low = std::min(least_low, low - room);
    least_high = std::min(least_high, high + room);
    most_low = std::max(most_low, low - room);
    most_high = std::max(most_high, high + room);
  }
  const double least = part["thickness_um"]["min"].get<double>();
  const double most = part["thickness_um"]["max"].get<double>();
  CHECK(least >= least_low * (1 - printed));
  CHECK(least <= least_high * (1 + printed));
  CHECK(most >= most_low * (1 - printed));
  CHECK(most <= most_high * (1 + printed));
  // The bracket itself must be narrow, or it would let anything through.
  CHECK(least_high - least_low < 0.1 * least);
}

TEST_CASE("the table holds what the surface data hold") {
  const Solved solved("token_one_sheet");
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->SetFileName((solved.folder / "surface.vtp").c_str());
  reader->Update();
  const auto thickness = column(reader->GetOutput(), "thickness_um");
  const auto lines = lines_of(content(solved.folder / "surface.csv"));
  REQUIRE(lines.size() == thickness.size() + 1);
  // Faces of a token have no commas in their names.
  const auto cells = [](const std::string& line) {
    std::vector<std::string> all;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) all.push_back(cell);
    return all;
  };
  const auto by_shape = column(reader->GetOutput(), "thickness_by_shape_um");
  REQUIRE(by_shape.size() == thickness.size());
  const std::vector<std::string> header = cells(lines[0]);
  REQUIRE(header.at(12) == "thickness_um");
  const std::size_t place = header.size() - 3;  // then both ends of the band
  REQUIRE(header.at(place) == "thickness_by_shape_um");
  for (std::size_t k = 0; k < thickness.size(); ++k) {
    const std::vector<std::string> row = cells(lines[k + 1]);
    CHECK(std::stod(row.at(12)) == Approx(thickness[k]).epsilon(printed));
    CHECK(std::stod(row.at(place)) == Approx(by_shape[k]).epsilon(printed));
  }
}

TEST_CASE("the liquid's data hold the summary's numbers") {
  const std::string name = some_case();
  CAPTURE(name);
  const Solved solved(name);
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName((solved.folder / "section.vtu").c_str());
  reader->Update();
  vtkUnstructuredGrid* grid = reader->GetOutput();
  CHECK(grid->GetNumberOfPoints() ==
        solved.summary["mesh"]["dofs"].get<vtkIdType>());
  CHECK(grid->GetNumberOfCells() ==
        solved.summary["mesh"]["triangles"].get<vtkIdType>());
  for (vtkIdType k = 0; k < grid->GetNumberOfCells(); ++k)
    REQUIRE(grid->GetCellType(k) == VTK_QUADRATIC_TRIANGLE);

  // The metal of the part is at 0 V and no lead is entered: the liquid lies
  // between it and the voltage that the supply shows.
  const auto potential = column(grid, "potential_V");
  const auto [low, high] =
      std::minmax_element(potential.begin(), potential.end());
  const double voltage = solved.summary["cell"]["voltage_V"].get<double>();
  CHECK(*low >= 0);
  CHECK(*high == Approx(voltage).epsilon(printed));

  // On the part's surface both files tell of the same current, found in two
  // ways: from the polarization law (surface) and from the gradient of the
  // potential (liquid), whose part along the normal it is. The gradient of
  // quadratic elements is of second order in their size, some ten to a radius
  // here, and of first order where a radius ends and the curvature jumps: some
  // hundredths of the mean at a point, less in the sum, where signs mix.
  vtkNew<vtkXMLPolyDataReader> surface_reader;
  surface_reader->SetFileName((solved.folder / "surface.vtp").c_str());
  surface_reader->Update();
  vtkPolyData* surface = surface_reader->GetOutput();
  const auto density = column(surface, "current_density_A_dm2");
  const auto area = column(surface, "area_cm2");
  vtkDataArray* normals = surface->GetPointData()->GetArray("normal");
  vtkDataArray* vectors =
      grid->GetPointData()->GetArray("current_density_A_dm2");
  REQUIRE(normals);
  REQUIRE(vectors);
  REQUIRE(vectors->GetNumberOfComponents() == 3);
  const auto& part = solved.summary["part"];
  const double mean = part["current_density_A_dm2"]["mean"].get<double>();
  double current = 0;
  for (vtkIdType k = 0; k < surface->GetNumberOfPoints(); ++k) {
    double x[3], y[3];
    surface->GetPoint(k, x);
    const vtkIdType node = grid->FindPoint(x);
    REQUIRE(node >= 0);
    grid->GetPoint(node, y);
    // Points of the surface are nodes of the liquid.
    CHECK(std::hypot(x[0] - y[0], x[1] - y[1]) < 1e-6);
    const double inwards =
        -(vectors->GetComponent(node, 0) * normals->GetComponent(k, 0) +
          vectors->GetComponent(node, 1) * normals->GetComponent(k, 1));
    const auto here = static_cast<std::size_t>(k);
    CHECK(std::abs(inwards - density[here]) < 0.05 * mean);
    current += inwards * area[here] / 100;
  }
  CHECK(current == Approx(part["current_A"].get<double>()).epsilon(0.01));
}

TEST_CASE("each copy's data hold its own numbers") {
  const Solved solved("crowded.toml", crowded);
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->SetFileName((solved.folder / "surface.vtp").c_str());
  reader->Update();
  vtkPolyData* surface = reader->GetOutput();
  CHECK(surface->GetNumberOfLines() == 2);
  const auto copy = column(surface, "part");
  const auto area = column(surface, "area_cm2");
  const auto thickness = column(surface, "thickness_um");
  const auto density = column(surface, "current_density_A_dm2");
  const auto lines = lines_of(content(solved.folder / "surface.csv"));
  REQUIRE(lines.size() == copy.size() + 1);

  const auto& parts = solved.summary["parts"];
  REQUIRE(parts.size() == 2);
  double on_parts = 0;
  for (std::size_t k = 0; k < 2; ++k) {
    const auto& part = parts[k];
    CAPTURE(part["name"].get<std::string>());
    double whole = 0, coated = 0, current = 0;
    for (std::size_t p = 0; p < copy.size(); ++p) {
      if (copy[p] != static_cast<double>(k)) continue;
      whole += area[p];
      coated += area[p] * thickness[p];
      current += area[p] * density[p] / 100;
      CHECK(lines[p + 1].starts_with(part["name"].get<std::string>() + ","));
    }
    CHECK(whole == Approx(part["area_cm2"].get<double>()).epsilon(printed));
    CHECK(coated / whole ==
          Approx(part["thickness_um"]["mean"].get<double>()).epsilon(printed));
    CHECK(current == Approx(part["current_A"].get<double>()).epsilon(printed));
    on_parts += part["current_A"].get<double>();
  }
  // What goes in comes out: six digits each.
  const double all = solved.summary["cell"]["current_A"].get<double>();
  const auto& thief = solved.summary["thieves"][0];
  CHECK(on_parts + thief["current_A"].get<double>() ==
        Approx(all).epsilon(2 * printed));
  CHECK(thief["share_of_current"].get<double>() ==
        Approx(thief["current_A"].get<double>() / all).epsilon(2 * printed));
  CHECK(solved.summary["floating"][0]["through_A"].get<double>() > 0);
  CHECK(solved.summary["rack"]["copies"] == 2);

  // The upper token ends at 105 mm: above the level lie the topmost 5 mm of
  // its 30 mm, of which 1 mm is its rim's rounded edge. The lower rim is
  // straight for 3 mm less two edges of 1 mm, and two quarter circles.
  const auto bare = [&](std::size_t part, const std::string& face) {
    double length = 0;
    for (const auto& b : parts[part]["bare"])
      if (b["face"] == face) {
        CHECK(b["to_mm"].get<double>() - b["from_mm"].get<double>() ==
              Approx(b["length_mm"].get<double>()).margin(1e-3));
        length += b["length_mm"].get<double>();
      }
    return length;
  };
  const double rim = 1 + 3.14159265;
  CHECK(bare(0, "lower rim") == Approx(rim).epsilon(printed));
  CHECK(bare(1, "lower rim") == Approx(rim).epsilon(printed));
  CHECK(bare(0, "left") == 0);
  CHECK(bare(1, "left") == Approx(4).epsilon(printed));
  CHECK(bare(1, "right") == Approx(4).epsilon(printed));
}
