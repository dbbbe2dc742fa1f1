#include "tests/unit/outline_samples.hpp"

#include <catch2/catch.hpp>

#include <locale>

using namespace thinspot;
using namespace thinspot::mesh;
using tests::dxf;
using tests::entity;
using tests::Group;
using tests::line;
using tests::read_text;
using tests::refusal;

namespace {

constexpr double pi = std::numbers::pi;

const std::string triangle =
    line(0, 0, 4, 0) + line(4, 0, 0, 3, "slope") + line(0, 3, 0, 0);

double mm2(const DrawnOutline& drawn) { return 1e6 * area(drawn.outline); }

double mm2(const std::string& entities) {
  return mm2(read_text("a.dxf", dxf(entities)));
}

std::string rectangle(double x0, double y0, double x1, double y1,
                      const std::vector<Group>& more = {}) {
  std::vector<Group> groups{{90, 4}, {70, 1}};
  groups.insert(groups.end(), more.begin(), more.end());
  for (const auto& [x, y] : {std::pair{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}) {
    groups.push_back({10, x});
    groups.push_back({20, y});
  }
  return entity("LWPOLYLINE", groups);
}

}  // namespace

TEST_CASE("DXF outline: loose lines in any order and direction") {
  CHECK(mm2(triangle) == Approx(6).epsilon(1e-12));
  CHECK(mm2(line(0, 3, 4, 0) + line(0, 3, 0, 0) + line(4, 0, 0, 0)) ==
        Approx(6).epsilon(1e-12));
  // Twice the same piece, a piece without length, ends a little apart.
  const auto drawn =
      read_text("a.dxf", dxf(triangle + line(0, 3, 4, 0) + line(4, 0, 4, 0) +
                             line(10, 0, 10, 1) + line(10, 1.000001, 11, 0) +
                             line(11, 0, 10, 0)));
  CHECK(drawn.outline.loops.size() == 2);
  CHECK(drawn.outline.loops[0].size() == 3);
  CHECK(drawn.outline.loops[0][1].face == "slope");
  CHECK(drawn.outline.loops[0][0].face == "outline");
}

TEST_CASE("DXF outline: units") {
  const auto side = [&](int insunits, const OutlineOptions& options) {
    const auto drawn = read_text("a.dxf", dxf(triangle, insunits), options);
    return std::pair(perimeter(drawn.outline) / 12, drawn.unit_assumed);
  };
  CHECK(side(4, {}).first == Approx(1e-3).epsilon(1e-12));
  CHECK(side(1, {}).first == Approx(25.4e-3).epsilon(1e-12));
  CHECK(side(2, {}).first == Approx(304.8e-3).epsilon(1e-12));
  CHECK(side(5, {}).first == Approx(1e-2).epsilon(1e-12));
  CHECK(side(6, {}).first == Approx(1).epsilon(1e-12));
  CHECK(side(13, {}).first == Approx(1e-6).epsilon(1e-12));
  CHECK(side(1, {1e-3, 2}).first == Approx(2e-3).epsilon(1e-12));
  CHECK(side(0, {}) == std::pair(side(4, {}).first, true));
  CHECK(side(1, {}).second == false);
  CHECK(side(0, {1e-3, 1}).second == false);
  CHECK(read_text("a.dxf", dxf(triangle, 18)).unit_assumed);
}

TEST_CASE("DXF outline: circles, arcs, polylines with bulges") {
  const std::vector<Group> ring{{10, 3}, {20, 1}, {40, 2}};
  CHECK(mm2(entity("CIRCLE", ring)) == Approx(4 * pi).epsilon(1e-12));
  // Three quarters of it and two lines.
  std::vector<Group> arc = ring;
  arc.push_back({50, 0});
  arc.push_back({51, 270});
  CHECK(mm2(entity("ARC", arc) + line(3, 1, 5, 1) + line(3, 1, 3, -1)) ==
        Approx(3 * pi).epsilon(1e-12));
  // A slot: half circles at both ends.
  const std::vector<Group> slot{{90, 4}, {70, 1},  {10, 0}, {20, -1},
                                {10, 6}, {20, -1}, {42, 1}, {10, 6},
                                {20, 1}, {10, 0},  {20, 1}, {42, 1}};
  const auto drawn = read_text("a.dxf", dxf(entity("LWPOLYLINE", slot)));
  CHECK(mm2(drawn) == Approx(12 + pi).epsilon(1e-12));
  CHECK(perimeter(drawn.outline) == Approx(1e-3 * (12 + 2 * pi)));
  // The same in the older form.
  const auto vertex = [](double x, double y, double bulge) {
    return entity("VERTEX", {{10, x}, {20, y}, {42, bulge}});
  };
  CHECK(mm2(entity("POLYLINE", {{66, 1}, {70, 1}}) + vertex(0, -1, 0) +
            vertex(6, -1, 1) + vertex(6, 1, 0) + vertex(0, 1, 1) +
            "0\nSEQEND\n") == Approx(12 + pi).epsilon(1e-12));
}

TEST_CASE("DXF outline: seen from behind, x of the entity runs backwards") {
  const std::vector<Group> behind{{210, 0}, {220, 0}, {230, -1}};
  // Mirrored, the rectangle lies at x = -5 .. -1 and the triangle fits it.
  const auto box =
      read_text("a.dxf", dxf(rectangle(1, 0, 5, 2, behind))).outline;
  CHECK(bounding_box(box).low.x() == Approx(-5e-3));
  CHECK(bounding_box(box).high.x() == Approx(-1e-3));
  // The quarter from 0 to 90 degrees lies at the upper left then.
  std::vector<Group> arc{{10, 0}, {20, 0}, {40, 1}, {50, 0}, {51, 90}};
  arc.insert(arc.end(), behind.begin(), behind.end());
  CHECK(mm2(entity("ARC", arc) + line(0, 0, -1, 0) + line(0, 1, 0, 0)) ==
        Approx(pi / 4).epsilon(1e-12));
  // Of an ellipse only the way round changes: its quarter from 0 to 90
  // degrees lies at the lower right.
  std::vector<Group> quarter{{10, 0}, {20, 0}, {11, 2},     {21, 0},
                             {40, 1}, {41, 0}, {42, pi / 2}};
  quarter.insert(quarter.end(), behind.begin(), behind.end());
  CHECK(mm2(entity("ELLIPSE", quarter) + line(0, 0, 2, 0) +
            line(0, -2, 0, 0)) == Approx(pi).epsilon(1e-9));
  std::vector<Group> tilted{{10, 0},  {20, 0},  {40, 1},
                            {210, 1}, {220, 0}, {230, 0}};
  const auto drawn =
      read_text("a.dxf", dxf(triangle + entity("CIRCLE", tilted)));
  CHECK(mm2(drawn) == Approx(6));
  CHECK(drawn.notes ==
        std::vector<std::string>{"left out: 1 CIRCLE not in the x-y plane"});
}

TEST_CASE("DXF outline: what is no outline is counted and left out") {
  const std::string block = "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nscrew\n" +
                            entity("CIRCLE", {{10, 0}, {20, 0}, {40, 9}}) +
                            "0\nENDBLK\n0\nENDSEC\n";
  const auto drawn = read_text(
      "a.dxf", block + dxf(triangle + entity("TEXT", {{10, 1}, {20, 1}}) +
                           entity("TEXT", {{10, 1}, {20, 1}}) +
                           entity("INSERT", {{10, 1}, {20, 1}}) +
                           entity("HATCH", {{91, 2e9}, {93, 2e9}}) +
                           entity("POLYLINE", {{70, 64}}) +
                           entity("VERTEX", {{10, 1}, {20, 1}, {70, 192}}) +
                           "0\nSEQEND\n" +
                           entity("CIRCLE", {{67, 1}, {10, 1}, {40, 5}})));
  CHECK(mm2(drawn) == Approx(6).epsilon(1e-12));
  CHECK(drawn.notes == std::vector<std::string>{
                           "left out: 1 HATCH, 1 INSERT, 1 POLYLINE that are "
                           "meshes, 2 TEXT, 1 on the paper sheet"});
}

TEST_CASE("DXF outline: counts in the file are not trusted") {
  std::string lying = rectangle(0, 0, 2, 3);
  lying.replace(lying.find("90\n4"), 4, "90\n2000000000");
  CHECK(mm2(lying) == Approx(6).epsilon(1e-12));
  std::string none = rectangle(0, 0, 2, 3);
  none.replace(none.find("90\n4"), 4, "90\n-1");
  CHECK(mm2(none) == Approx(6).epsilon(1e-12));
}

TEST_CASE("DXF outline: numbers do not depend on the locale") {
  struct Comma : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
  };
  const std::string half =
      line(0, 0, 0.5, 0) + line(0.5, 0, 0, 1234.5) + line(0, 1234.5, 0, 0);
  const std::locale before =
      std::locale::global(std::locale(std::locale::classic(), new Comma));
  const double here = mm2(half);
  std::locale::global(before);
  CHECK(here == Approx(0.25 * 1234.5).epsilon(1e-12));
}

TEST_CASE("DXF outline: an ellipse that ends turns before its start") {
  // Parameters count round and round: -1e17 must not be counted up to.
  for (const double end : {0.0, -2 * pi, -8 * pi, -2147483648.0, -1e17, -1e308})
    for (const double start : {0.0, -1.0}) {
      CAPTURE(end, start);
      const std::string text =
          dxf(entity("ELLIPSE", {{10, 0},
                                 {20, 0},
                                 {11, 3},
                                 {21, 0},
                                 {40, 0.5},
                                 {41, start},
                                 {42, end}}) +
              entity("CIRCLE", {{10, 20}, {20, 0}, {40, 1}}));
      // Whole, or an arc that does not close.
      if (start == 0 && std::fmod(end, 2 * pi) == 0)
        CHECK(1e6 * area(read_text("a.dxf", text).outline) ==
              Approx(5.5 * pi).epsilon(1e-4));
      else
        CHECK_THAT(refusal("a.dxf", text), Catch::Contains("not closed"));
    }
}

TEST_CASE("DXF outline: one line says what is wrong and where") {
  const auto said = [](const std::string& entities) {
    return refusal("a.dxf", dxf(entities));
  };
  using Catch::Contains;
  CHECK_THAT(said(line(0, 0, 4, 0) + line(4, 0, 0, 3) + line(0, 2.5, 0, 0)),
             Contains("\"a.dxf\" is not closed: a piece ends at (0, 3) mm and "
                      "the nearest other open end is 0.5 mm away at (0, 2.5) "
                      "mm"));
  CHECK_THAT(said(triangle + line(0, 0, -1, -1)), Contains("not closed"));
  CHECK_THAT(said(triangle + line(0, 0, -1, 0) + line(-1, 0, -1, -1) +
                  line(-1, -1, 0, 0)),
             Contains("4 pieces that meet at (0, 0) mm"));
  CHECK_THAT(said(triangle + entity("CIRCLE", {{10, 0}, {20, 0}, {40, 1}})),
             Contains("crosses or touches itself at"));
  CHECK_THAT(said(""), Contains("holds no outline"));
  CHECK_THAT(said(entity("TEXT", {{10, 1}})), Contains("holds no outline"));
  CHECK_THAT(said(entity("SPLINE", {{71, 3}, {40, 0}, {10, 0}, {20, 0}})),
             Contains("spline of degree 3 with 1 control points"));
  CHECK_THAT(refusal("a.dxf", "0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nEOF\n"),
             Contains("no ENTITIES section"));
  std::string text = dxf(triangle);
  CHECK_THAT(refusal("a.dxf", text.substr(0, text.size() - 8)),
             Contains("cut short"));
  CHECK_THAT(refusal("a.dxf", "solid thing\n"),
             Contains("line 1") && Contains("group code"));
  CHECK_THAT(refusal("a.dxf", std::string("x\0y", 3)), Contains("binary"));
  text.replace(text.find("\n10\n0\n"), 6, "\n10\nO\n");
  CHECK_THAT(refusal("a.dxf", text), Contains("\"O\" is not a number"));
}
