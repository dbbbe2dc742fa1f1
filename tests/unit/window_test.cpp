// What the window is given: the files of a run, read and checked.

#include "io/vtk_data.hpp"
#include "mesh/errors.hpp"
#include "tests/unit/sample_result.hpp"
#include "viz/liquid_borders.hpp"
#include "viz/point_words.hpp"
#include "viz/result_files.hpp"
#include "viz/window_frame.hpp"
#include "viz/window_paint.hpp"

#include <catch2/catch.hpp>

#include <vtkLookupTable.h>
#include <vtkPolyData.h>
#include <vtkSmartPointer.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

using namespace thinspot;
using namespace thinspot::viz;
using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

using Files = std::map<std::string, std::string>;

Files sample_files() {
  const solver::Result result = sample_result();
  return {{"section.vtu", io::section_vtu(result)},
          {"surface.vtp", io::surface_vtp(result)},
          {"steps.pvd", io::steps_pvd(result)}};
}

/// The one line that is said of files that are refused, and of which file.
std::string refusal(const Files& files, const std::string& of) {
  try {
    read_result_files(files);
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 1);
    CHECK(error.problems()[0].key == of);
    CHECK_FALSE(error.problems()[0].mend.empty());
    return error.problems()[0].wrong;
  }
  FAIL("nothing was refused");
  return "";
}

std::string replaced(std::string text, const std::string& from,
                     const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("the window reads what a run wrote", "[window]") {
  const solver::Result result = sample_result();
  const WindowData data = read_result_files(sample_files());
  REQUIRE(data.liquid);
  CHECK(data.liquid->triangles == result.mesh.triangles);
  CHECK(data.liquid->nodes.isApprox(1000 * result.mesh.nodes));
  CHECK(data.liquid->potential.isApprox(result.potential));
  // Both components are 1.5 A/dm2.
  CHECK(data.liquid->current_density(3) == Approx(1.5 * std::sqrt(2.0)));
  REQUIRE(data.steps.size() == 1);
  CHECK(data.steps[0].minutes == Approx(40));
  const SurfaceData& surface = data.steps[0].surface;
  REQUIRE(surface.points.cols() == 4);
  CHECK(surface.walks == std::vector<std::vector<int>>{{0, 1, 2, 3, 0}});
  for (Eigen::Index k = 0; k < 4; ++k) {
    const auto& p = result.parts[0].surface[static_cast<std::size_t>(k)];
    CHECK(surface.points.col(k).isApprox(1000 * p.at));
    CHECK(surface.normals.col(k).isApprox(p.normal));
    CHECK(surface.thickness(k) == Approx(1e6 * p.thickness));
    CHECK(surface.current_density(k) == Approx(p.current_density / 100));
    CHECK(surface.arc(k) == Approx(1000 * p.arc));
    CHECK(surface.face(k) == p.face);
    CHECK(surface.wetted(k) == 1);
  }
  CHECK(surface.face_names[1] == "right, \"far\"");
}

TEST_CASE("damaged files are refused in one line", "[window]") {
  Files files = sample_files();
  SECTION("a missing one") {
    files.erase("surface.vtp");
    CHECK_THAT(refusal(files, "surface.vtp"), Contains("missing"));
  }
  SECTION("a missing list") {
    files.erase("steps.pvd");
    CHECK_THAT(refusal(files, "steps.pvd"), Contains("missing"));
  }
  SECTION("one cut short") {
    files["surface.vtp"].resize(files["surface.vtp"].size() / 2);
    CHECK_THAT(refusal(files, "surface.vtp"), Contains("damaged"));
  }
  SECTION("an empty one") {
    files["section.vtu"].clear();
    CHECK_THAT(refusal(files, "section.vtu"), Contains("damaged"));
  }
  SECTION("one of another kind") {
    files["section.vtu"] = files["surface.vtp"];
    CHECK_THAT(refusal(files, "section.vtu"), Contains("damaged"));
  }
  SECTION("one that claims more points than there is memory for") {
    files["surface.vtp"] =
        replaced(files["surface.vtp"], "NumberOfPoints=\"4\"",
                 "NumberOfPoints=\"99999999999\"");
    CHECK_THAT(refusal(files, "surface.vtp"), Contains("damaged"));
  }
  SECTION("one without thickness") {
    files["surface.vtp"] = replaced(
        files["surface.vtp"], "Name=\"thickness_um\"", "Name=\"thickness_xx\"");
    CHECK_THAT(refusal(files, "surface.vtp"), Contains("thickness_um"));
  }
  SECTION("a list that leads out of the folder") {
    files["steps.pvd"] =
        replaced(files["steps.pvd"], "surface.vtp", "../surface.vtp");
    CHECK_THAT(refusal(files, "steps.pvd"), Contains("outside"));
  }
  SECTION("a list of nothing") {
    files["steps.pvd"] = "<VTKFile><Collection/></VTKFile>";
    CHECK_THAT(refusal(files, "steps.pvd"), Contains("no surface"));
  }
  SECTION("a list that is no XML") {
    files["steps.pvd"] = "<VTKFile><Collection>";
    CHECK_THAT(refusal(files, "steps.pvd"), Contains("no collection"));
  }
}

TEST_CASE("a line or face beyond its range is refused", "[window]") {
  Files files = sample_files();
  const auto plain = [](const std::string& ids, const std::string& face,
                        const std::string& thickness) {
    const auto array = [](const char* name, const std::string& values,
                          const char* components = "1") {
      return std::string("<DataArray type=\"Float64\" Name=\"") + name +
             "\" NumberOfComponents=\"" + components + "\" format=\"ascii\">" +
             values + "</DataArray>";
    };
    return "<VTKFile type=\"PolyData\" version=\"0.1\"><PolyData>"
           "<FieldData><DataArray type=\"String\" Name=\"face_names\" "
           "NumberOfTuples=\"1\" format=\"ascii\">97 0</DataArray></FieldData>"
           "<Piece NumberOfPoints=\"2\" NumberOfLines=\"1\"><PointData>" +
           array("thickness_um", thickness) +
           array("current_density_A_dm2", "1 1") + array("arc_mm", "0 1") +
           array("face", face) + array("wetted", "1 1") +
           array("normal", "0 1 0 0 1 0", "3") + "</PointData><Points>" +
           array("Points", "0 0 0 1 0 0", "3") +
           "</Points><Lines><DataArray type=\"Int64\" Name=\"connectivity\" "
           "format=\"ascii\">" +
           ids +
           "</DataArray><DataArray type=\"Int64\" Name=\"offsets\" "
           "format=\"ascii\">2</DataArray></Lines></Piece></PolyData>"
           "</VTKFile>";
  };
  files["surface.vtp"] = plain("0 1", "0 0", "5 6");
  CHECK(read_result_files(files).steps[0].surface.thickness(1) == 6);
  files["surface.vtp"] = plain("0 7", "0 0", "5 6");
  CHECK_THAT(refusal(files, "surface.vtp"), Contains("damaged"));
  files["surface.vtp"] = plain("0 -1", "0 0", "5 6");
  CHECK_THAT(refusal(files, "surface.vtp"), Contains("damaged"));
  files["surface.vtp"] = plain("0 1", "0 1", "5 6");
  CHECK_THAT(refusal(files, "surface.vtp"), Contains("face"));
  files["surface.vtp"] = plain("0 1", "0 0", "5 nan");
  CHECK_THAT(refusal(files, "surface.vtp"), Contains("damaged"));
}

TEST_CASE("a changed byte is refused or changes nothing", "[window]") {
  const Files files = sample_files();
  const SurfaceData sound = read_result_files(files).steps[0].surface;
  const std::size_t data = files.at("surface.vtp").find("<AppendedData");
  REQUIRE(data != std::string::npos);
  int refused = 0;
  for (std::size_t at = data + 40; at < files.at("surface.vtp").size();
       at += 11) {
    CAPTURE(at);
    Files changed = files;
    char& byte = changed["surface.vtp"][at];
    byte = byte == 'A' ? 'B' : 'A';
    try {
      const SurfaceData read = read_result_files(changed).steps[0].surface;
      CHECK(read.thickness == sound.thickness);
      CHECK(read.points == sound.points);
      CHECK(read.walks == sound.walks);
    } catch (const InputError& error) {
      CHECK(error.problems()[0].key == "surface.vtp");
      ++refused;
    }
  }
  CHECK(refused > 20);
}

TEST_CASE("a number that is none is refused", "[window]") {
  solver::Result result = sample_result();
  Files files = sample_files();
  result.parts[0].surface[2].thickness =
      std::numeric_limits<double>::quiet_NaN();
  files["surface.vtp"] = io::surface_vtp(result);
  CHECK_THAT(refusal(files, "surface.vtp"), Contains("thickness_um"));
  files = sample_files();
  result.potential(3) = std::numeric_limits<double>::infinity();
  files["section.vtu"] = io::section_vtu(result);
  CHECK_THAT(refusal(files, "section.vtu"), Contains("potential_V"));
}

TEST_CASE("a point is told with its figures and its place", "[window]") {
  SurfaceData surface = read_result_files(sample_files()).steps[0].surface;
  const std::string words = point_words(surface, 2);
  for (const char* part : {"28 \u00B5m", "2 A/dm\u00B2", "right, \"far\"",
                           "20 mm along", "x 10, y 10 mm"})
    CHECK_THAT(words, Contains(part));
  surface.wetted(2) = 0;
  CHECK_THAT(point_words(surface, 2),
             Contains("no coating") && !Contains("28"));
}

TEST_CASE("the liquid's border knows where the part is", "[window]") {
  const WindowData data = read_result_files(sample_files());
  // A square of two triangles; the part is the same square, whose corners
  // alone are points of its surface, so that no edge's middle is one.
  const auto borders = borders_of(*data.liquid, data.steps[0].surface);
  REQUIRE(borders.size() == 1);
  CHECK(borders[0].area == Approx(100));
  REQUIRE(borders[0].points.size() == 16);
  for (const bool at_part : borders[0].at_part) CHECK_FALSE(at_part);
  // With the middle of the lower edge among them, that edge is the part's.
  SurfaceData part;
  part.points = Eigen::Vector2d(5, 0);
  const auto known = borders_of(*data.liquid, part);
  int pieces = 0;
  for (std::size_t k = 0; k < 16; ++k)
    if (known[0].at_part[k]) {
      ++pieces;
      CHECK(known[0].points[k].y() == 0);
    }
  CHECK(pieces == 4);
}

TEST_CASE("a circle at which the mesh is parted is no border", "[window]") {
  // A square of 10 mm in the middle of one of 30 mm, each with nodes of its own
  // on the line between them; only what is inside may have a gap to it.
  const bool parted = GENERATE(true, false);
  CAPTURE(parted);
  const double inside = parted ? 10 : 8;
  std::vector<Eigen::Vector2d> nodes;
  std::vector<std::array<int, 6>> triangles;
  std::map<std::pair<int, int>, int> middles;
  const auto triangle = [&](int a, int b, int c) {
    const auto middle = [&](int from, int to) {
      const auto [at, is_new] = middles.insert(
          {std::minmax(from, to), static_cast<int>(nodes.size())});
      const Eigen::Vector2d place = (nodes[static_cast<std::size_t>(from)] +
                                     nodes[static_cast<std::size_t>(to)]) /
                                    2;
      if (is_new) nodes.push_back(place);
      return at->second;
    };
    triangles.push_back({a, b, c, middle(a, b), middle(b, c), middle(c, a)});
  };
  for (const double side : {30.0, 10.0, inside})
    for (const auto& [x, y] :
         std::vector<std::pair<int, int>>{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}})
      nodes.emplace_back(x * side / 2, y * side / 2);
  for (int k = 0; k < 4; ++k) {
    const int next = (k + 1) % 4;
    triangle(k, next, 4 + next);
    triangle(k, 4 + next, 4 + k);
  }
  triangle(8, 9, 10);
  triangle(8, 10, 11);
  LiquidData liquid;
  liquid.nodes.resize(2, static_cast<Eigen::Index>(nodes.size()));
  for (std::size_t k = 0; k < nodes.size(); ++k)
    liquid.nodes.col(static_cast<Eigen::Index>(k)) = nodes[k];
  liquid.triangles.resize(6, static_cast<Eigen::Index>(triangles.size()));
  for (std::size_t k = 0; k < triangles.size(); ++k)
    for (int n = 0; n < 6; ++n)
      liquid.triangles(n, static_cast<Eigen::Index>(k)) =
          triangles[k][static_cast<std::size_t>(n)];
  const auto borders = borders_of(liquid, SurfaceData{});
  REQUIRE(borders.size() == (parted ? 1 : 3));
  CHECK(borders[0].area == Approx(900));
}

TEST_CASE("holes are left out of what is filled", "[window]") {
  const auto ring = [](double radius, int way) {
    Loop loop;
    for (int k = 0; k < 200; ++k) {
      const double a = way * 2 * std::numbers::pi * k / 200;
      loop.emplace_back(radius * std::cos(a), radius * std::sin(a));
    }
    return loop;
  };
  const auto area_of = [](vtkPolyData* data) {
    double sum = 0;
    for (vtkIdType k = 0; k < data->GetNumberOfCells(); ++k) {
      vtkIdType count = 0;
      const vtkIdType* ids = nullptr;
      data->GetCellPoints(k, count, ids);
      Loop loop;
      for (vtkIdType n = 0; n < count; ++n)
        loop.emplace_back(data->GetPoint(ids[n])[0], data->GetPoint(ids[n])[1]);
      sum += std::abs(signed_area(loop));
    }
    return sum;
  };
  const double of_two = signed_area(ring(2, 1));
  const double of_one = signed_area(ring(1, 1));
  CHECK(area_of(filled({ring(2, 1)})) == Approx(of_two));
  CHECK(area_of(filled({ring(2, -1)})) == Approx(of_two));
  CHECK(area_of(filled({ring(2, 1), ring(1, -1)})) == Approx(of_two - of_one));
  CHECK(area_of(filled({ring(2, -1), ring(1, 1)})) == Approx(of_two - of_one));
}

TEST_CASE("colour scales begin and end with round numbers", "[window]") {
  const ColourScale scale(ramp, 8.85, 26.1);
  CHECK(scale.table()->GetRange()[0] == Approx(5));
  CHECK(scale.table()->GetRange()[1] == Approx(30));
  CHECK(scale.labels() == 6);
  const ColourScale round(ramp, 0, 0.5);
  CHECK(round.table()->GetRange()[1] == Approx(0.5));
  CHECK(round.labels() == 6);
  const ColourScale one(ramp, 3, 3);
  CHECK(one.table()->GetRange()[0] <= 3);
  CHECK(one.table()->GetRange()[1] > 3);
}

TEST_CASE("what is shown is fit for the screen", "[window]") {
  CHECK(screen_text("12 \u00B5m \u2013 a") == "12 \u00B5m \u2013 a");
  CHECK(screen_text("a\nb\tc\x7f") == "a b c ");
  CHECK(screen_text("\xff\xc2x\xe2\x82") == "  x  ");
  CHECK(screen_text("\xc2\x85q") == "  q");
  CHECK(screen_text("abcdef", 3) == "abc\u2026");
}
