// Racks, clips, lacquer, tanks and parts of any shape: each in its pictures.

#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"
#include "tests/unit/synthetic_set_ups.hpp"
#include "viz/coating.hpp"
#include "viz/drawing_picture.hpp"
#include "viz/marks.hpp"
#include "viz/section_picture.hpp"
#include "viz/solid_look.hpp"
#include "viz/surface_marks.hpp"
#include "viz/thickness_chart.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

std::string drawing(const Synthetic& wanted) {
  const solver::Result r = synthetic_result(wanted);
  return viz::drawing_picture(r.used, r.section);
}

std::string look(viz::SolidKind kind) {
  viz::Svg svg("t", 10);
  viz::PathText d;
  d.chain({{0, 0}, {1, 0}, {1, 1}}, true);
  viz::draw_solid(svg, d, kind, "");
  return svg.finish(10, "", "");
}

bool has_pattern(const std::string& svg) {
  return svg.find("<pattern") != std::string::npos;
}

}  // namespace

TEST_CASE("every set-up makes sound pictures") {
  for (const HardCase& one : set_ups()) {
    DYNAMIC_SECTION("section: " << one.name) {
      check_picture(viz::section_picture(synthetic_result(one.wanted)));
    }
    DYNAMIC_SECTION("thickness: " << one.name) {
      check_picture(viz::thickness_chart(synthetic_result(one.wanted)));
    }
    DYNAMIC_SECTION("drawing: " << one.name) {
      check_picture(drawing(one.wanted));
    }
  }
}

TEST_CASE("kinds of solids are told apart without colour") {
  using viz::SolidKind;
  std::set<std::string> looks;
  int plain = 0;
  const auto kinds = {SolidKind::part,          SolidKind::clip,
                      SolidKind::soluble_anode, SolidKind::inert_anode,
                      SolidKind::thief,         SolidKind::shield,
                      SolidKind::floating};
  for (const SolidKind kind : kinds) {
    looks.insert(look(kind));
    if (!has_pattern(look(kind))) ++plain;
  }
  CHECK(looks.size() == kinds.size());
  CHECK(plain == 2);  // part and soluble anode: one pale, one dark
}

TEST_CASE("the legend explains what is there, and nothing else") {
  const std::string all =
      viz::section_picture(synthetic_result(set_up("every role")));
  for (const std::string words :
       {"top (clip)", "frame (thief)", "baffle (shield)", "part", "clip: holds",
        "does not dissolve", "thief: takes", "shield: lets",
        "unconnected metal", "stop-off lacquer", "bare: something touches"}) {
    INFO(words);
    CHECK(says(all, words));
  }
  const std::string plain = viz::section_picture(synthetic_result());
  for (const std::string words : {"clip", "thief", "shield", "unconnected",
                                  "lacquer", "bare", "does not dissolve"}) {
    INFO(words);
    CHECK_FALSE(says(plain, words));
  }
}

TEST_CASE("the pictures show the copy with the thinnest spot") {
  solver::Result r = synthetic_result(rack_of_six());
  CHECK(viz::shown_index(r) == 0);
  r.parts[4].thickness.value.min = 1e-6;
  r.parts[4].thin_spots[0].thickness = 1e-6;
  CHECK(viz::shown_index(r) == 4);
  CHECK(says(viz::thickness_chart(r), "surface of part 5"));
  const auto marks = viz::marks_of(r);
  CHECK(marks[0].part == 4);
  CHECK(says(viz::section_picture(r), "part 5, middle of the"));
  // What differs by rounding alone is no difference: the first is shown.
  for (auto& part : r.parts) part.thickness.value.min = 1e-6;
  r.parts[3].thickness.value.min = 1e-6 * (1 - 1e-9);
  CHECK(viz::shown_index(r) == 0);
}

TEST_CASE("a rack names each copy, its clips once, and compares all") {
  const solver::Result r = synthetic_result(rack_of_six());
  const std::string svg = viz::section_picture(r);
  for (int k = 1; k <= 6; ++k) {
    const std::string name = "part " + std::to_string(k);
    INFO(name);
    const auto texts = drawn_texts(svg);
    CHECK(std::any_of(texts.begin(), texts.end(),
                      [&](const DrawnText& t) { return t.text == name; }));
  }
  CHECK(says(svg, "hook (clip), one a part"));
  CHECK_FALSE(says(svg, "hook 2"));
  const std::string chart = viz::thickness_chart(r);
  CHECK(says(chart, "Each part on the rack"));
  CHECK(says(chart, "lowest mean"));
  CHECK(says(chart, "the other parts on the rack"));
  CHECK_FALSE(
      says(viz::thickness_chart(synthetic_result()), "Each part on the rack"));
}

TEST_CASE("bare stretches know why they are bare") {
  const auto reasons = [](const std::string& name) {
    const solver::Result r = synthetic_result(set_up(name));
    std::vector<std::string> whys;
    for (const auto& b : viz::bare_stretches(r, r.parts.front()))
      whys.push_back(b.why);
    return whys;
  };
  CHECK(reasons("half dipped") ==
        std::vector<std::string>{"out of the liquid"});
  CHECK(reasons("every role") ==
        std::vector<std::string>{"lacquered", "under top"});
  const solver::Result r = synthetic_result(set_up("lacquered"));
  double bare = 0;
  for (const auto& b : viz::bare_stretches(r, r.parts.front())) {
    CHECK(b.lacquered);
    for (std::size_t k = 0; k + 1 < b.points.size(); ++k)
      bare += (r.parts[0].surface[b.points[k + 1]].at -
               r.parts[0].surface[b.points[k]].at)
                  .norm();
  }
  // Left face and lower edge; points stand a little over half a millimetre
  // apart and a stretch ends with one of them at either side.
  CHECK(bare == Approx(38e-3).margin(1.5e-3));
}

TEST_CASE("the solver's own words for a bare place come first") {
  solver::Result r = synthetic_result(set_up("half dipped"));
  const double end = r.parts[0].surface.back().arc;
  for (const auto& face : r.parts[0].faces)
    r.parts[0].bare.push_back({face.name, 0, end, "above the level"});
  CHECK(viz::bare_stretches(r, r.parts[0]).front().why == "above the level");
  CHECK(says(viz::thickness_chart(r), "above the level"));
}

TEST_CASE("gaps of the chart are told in it or in its legend") {
  CHECK(says(viz::thickness_chart(synthetic_result(set_up("half dipped"))),
             "out of the liquid"));
  CHECK(says(viz::thickness_chart(synthetic_result(set_up("every role"))),
             "mm: under top"));
}

TEST_CASE("no coating is drawn along the axis") {
  const solver::Result r = synthetic_result(set_up("ring anode"));
  const auto& surface = r.parts.front().surface;
  REQUIRE(surface.front().at.x() == Approx(0).margin(1e-12));
  REQUIRE(surface.back().at.x() == Approx(0).margin(1e-12));
  const auto loops = viz::surface_loops(r, r.parts.front());
  REQUIRE(loops.size() == 1);
  CHECK_FALSE(loops.front().closed);
  // Half the width, the height, half the width: without the axis.
  CHECK(loops.front().length == Approx(36e-3));
  for (const viz::Stretch& s : viz::stretches(r, r.parts.front()))
    for (std::size_t k = 0; k + 1 < s.points.size(); ++k)
      CHECK(s.points[k + 1] == s.points[k] + 1);
}

TEST_CASE("the drawing gives distances, level and size") {
  // The sheet's face is at 4 mm, the part's at 43.8 mm.
  const std::string svg = drawing({});
  for (const std::string words :
       {"39.8 mm", "100 mm", "2.4 mm", "30 mm", "Not solved yet",
        "free distances", "sheet (anode)"}) {
    INFO(words);
    CHECK(says(svg, words));
  }
  for (const std::string words :
       {"Current density", "Thin spots", "coating", "clip", "lacquer", " V"}) {
    INFO(words);
    CHECK_FALSE(says(svg, words));
  }
}

TEST_CASE("two anodes below a part keep their names and distances") {
  // Faces at 16 and 26 mm, the part's lower edge at 48.8 mm.
  const std::string svg = drawing(set_up("anodes below"));
  for (const std::string words :
       {"floor sheet (anode)", "lower sheet (anode)", "22.8 mm", "32.8 mm"}) {
    INFO(words);
    CHECK(says(svg, words));
  }
}
