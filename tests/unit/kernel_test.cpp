// The module with Gmsh and OpenCASCADE, and what goes to it and comes back.

#include "mesh/kernel.hpp"

#include "mesh/cut_by_boolean.hpp"
#include "mesh/errors.hpp"
#include "mesh/module.hpp"
#include "mesh_samples.hpp"

#include <catch2/catch.hpp>

#include <cstring>
#include <limits>
#include <string>

using namespace thinspot;
using namespace thinspot::mesh;
using Catch::Matchers::Contains;

namespace {

/// A square of two triangles, two of its sides named.
MeshAnswer square() {
  MeshAnswer answer;
  answer.tags = {1, 2, 3, 4};
  answer.xyz = {0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0};
  answer.corners = {1, 2, 3, 1, 3, 4};
  answer.edges = {{1, 2, 0}, {2, 3, 1}};
  return answer;
}

void refused(const MeshAnswer& answer) {
  CHECK_THROWS_AS(unpacked_mesh_answer(packed(answer), 2), NoResultError);
}

std::vector<Outline> outlines_of(const Section& section) {
  std::vector<Outline> outlines{section.liquid_bounds};
  for (const PlacedSolid& s : section.solids) outlines.push_back(s.outline);
  return outlines;
}

}  // namespace

TEST_CASE("a module that is not there is one clear line") {
  CHECK_THROWS_WITH(
      opened_module({"thinspot-nothing", 1}),
      Contains("thinspot-nothing.so cannot be loaded: cannot open") &&
          Contains("belongs into lib/thinspot") &&
          Contains("build or install thinspot anew"));
  // Nor does opening one ahead do more than that.
  { const OpenedAhead ahead({{"thinspot-nothing", 1}}); }
  CHECK_THROWS_AS(opened_module({"thinspot-nothing", 1}), ModuleError);
}

TEST_CASE(
    "modules are opened beside other work, and children start meanwhile") {
  const OpenedAhead ahead({kernel_file});
  const tests::Meshed coin = tests::meshed_coin();
  CHECK(coin.mesh.triangles.cols() > 0);
  CHECK(opened_module(kernel_file) == opened_module(kernel_file));
}

TEST_CASE("alike requests are alike to the byte, whatever memory held before") {
  const auto text = [](int rubbish) {
    MeshPiece piece;
    std::memset(static_cast<void*>(&piece), rubbish, sizeof piece);
    piece = {Point(0, 1), Point(2, 3), 0.5, 7, 8, 9};
    Bytes field;
    field.put(1.0);
    field.put(std::size_t{0});
    Bytes in(field.text());
    return packed(MeshRequest{{piece}, SizeField::unpacked(in), {5, 0.9}});
  };
  CHECK(text(0) == text(0xff));
  const MeshRequest back = unpacked_mesh_request(text(0));
  REQUIRE(back.pieces.size() == 1);
  CHECK(back.pieces[0].to == Point(2, 3));
  CHECK(back.pieces[0].region == 9);
  CHECK(back.attempt.algorithm == 5);
  CHECK(back.attempt.share == 0.9);
}

TEST_CASE("triangles come as they went") {
  const std::string text = packed(square());
  CHECK(packed(unpacked_mesh_answer(text, 2)) == text);
  for (std::size_t n = 0; n < text.size(); ++n)
    CHECK_THROWS_AS(unpacked_mesh_answer(text.substr(0, n), 2), NoResultError);
  CHECK_THROWS_AS(unpacked_mesh_answer(text + "x", 2), NoResultError);
}

TEST_CASE("triangles that cannot be are not believed") {
  MeshAnswer a = square();
  a.corners[4] = 5;  // no such node
  refused(a);
  a = square();
  a.corners.pop_back();
  refused(a);
  a = square();
  a.xyz[3] = std::numeric_limits<double>::quiet_NaN();
  refused(a);
  a = square();
  a.xyz.pop_back();
  refused(a);
  a = square();
  a.edges[1].piece = 2;  // of two
  refused(a);
  a = square();
  a.edges[0].to = 9;
  refused(a);
}

TEST_CASE("pieces that were cut are of curves that there are") {
  const std::vector<Outline> outlines =
      outlines_of(tests::meshed_plates().section);
  const CutPiece sound{1, 1, 0, 3, 10, 11, 0.25, 1};
  const std::string text = packed(std::vector<CutPiece>{sound});
  CHECK(packed(unpacked_cut(text, outlines)) == text);
  for (std::size_t n = 0; n < text.size(); ++n)
    CHECK_THROWS_AS(unpacked_cut(text.substr(0, n), outlines), NoResultError);
  const auto refuse = [&](auto change) {
    CutPiece p = sound;
    change(p);
    CHECK_THROWS_AS(unpacked_cut(packed(std::vector<CutPiece>{p}), outlines),
                    NoResultError);
  };
  refuse([](CutPiece& p) { p.outline = 99; });
  refuse([](CutPiece& p) { p.outline = -1; });
  refuse([](CutPiece& p) { p.loop = 1; });
  refuse([](CutPiece& p) { p.curve = 4; });
  refuse([](CutPiece& p) { p.from = -0.1; });
  refuse([](CutPiece& p) { p.to = std::numeric_limits<double>::infinity(); });
}

TEST_CASE("what the kernel throws comes back as words") {
  // Nothing in it: there is no liquid to cut.
  Section section = tests::meshed_plates().section;
  section.liquid_bounds.loops.clear();
  CHECK_THROWS_AS(cut_by_boolean(section), NoResultError);
  // And it goes on working.
  CHECK(cut_by_boolean(tests::meshed_plates().section).size() > 4);
}

TEST_CASE("a mesh does not depend on those that were made before it") {
  const auto request = [](double size) {
    std::vector<MeshPiece> pieces;
    const Point at[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
    for (int k = 0; k < 4; ++k)
      pieces.push_back({at[k], at[(k + 1) % 4], 0, k, (k + 1) % 4, 0});
    Bytes field;
    field.put(size);
    field.put(std::size_t{0});
    Bytes in(field.text());
    return MeshRequest{pieces, SizeField::unpacked(in), {5, 1}};
  };
  const auto mesh = [&](double size) {
    return packed(ask_for_triangles(request(size)));
  };
  const std::string first = mesh(0.1);
  CHECK(mesh(0.07) != first);
  CHECK(mesh(0.1) == first);
}
