#include "mesh/crossing.hpp"
#include "mesh/curve.hpp"
#include "mesh/shape.hpp"
#include "tests/unit/shape_examples.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <set>

using namespace thinspot;
using namespace thinspot::mesh;
using namespace thinspot::tests;

namespace {

constexpr double pi = std::numbers::pi;
/// A right-angled corner rounded with radius r loses (or, inside, gains) this
/// times r^2 of area …
constexpr double kCornerArea = 1 - pi / 4;
/// … and the outline this times r of length, whichever way it bends.
constexpr double kCornerLength = 2 - pi / 2;
/// Sums of some twenty terms of double precision, the smallest 1e-4 of the
/// largest: 20 x 1e4 x 1e-16.
constexpr double kRounding = 2e-11;

// What holds of some shapes alone; a new one of that kind is listed here.
const std::set<std::string> kUnlikeLeftAndRight{"bracket"};
const std::set<std::string> kBodyKnown{"coin", "rod", "tube"};

constexpr Cut kCuts[] = {Cut::side, Cut::plan, Cut::axisymmetric};

std::set<std::string> faces(const Outline& o) {
  std::set<std::string> names;
  for (const Loop& loop : o.loops)
    for (const Curve& c : loop) names.insert(c.face);
  return names;
}

}  // namespace

TEST_CASE("every shape has an example") {
  std::set<std::string> known, shown;
  for (const ShapeKind& kind : shape_kinds()) known.emplace(kind.name);
  for (const Example& e : examples()) shown.emplace(e.shape);
  INFO("tests of all shapes go by examples() in tests/unit/shape_examples.hpp");
  CHECK(shown == known);
}

TEST_CASE("every outline is closed, counter-clockwise, centred, uncrossed") {
  for (const Example& e : examples())
    for (const Cut cut : kCuts) {
      const Outline o = draw(e, cut);
      const double size = bounding_box(o).size().maxCoeff();
      CAPTURE(told(e), int(cut));
      for (const Loop& loop : o.loops)
        for (std::size_t k = 0; k < loop.size(); ++k) {
          CHECK(loop[k].to == loop[(k + 1) % loop.size()].from);
          CHECK(length(loop[k]) > 0);
          CHECK_FALSE(loop[k].face.empty());
        }
      CHECK(area({{o.loops.front()}}) > 0);
      CHECK(area(o) > 0);
      CHECK(bounding_box(o).centre().norm() < kRounding * size);
      // Where pieces touch without a kink is known to the root of rounding
      // only: 1e-8.
      CHECK_FALSE(self_crossing(o, 1e-7 * size).has_value());
    }
}

TEST_CASE("roundings run into their neighbours without a kink") {
  for (const Example& e : examples()) {
    if (e.kinked) continue;
    for (const Cut cut : kCuts) {
      const Outline o = draw(e, cut);
      for (const Loop& loop : o.loops)
        for (std::size_t k = 0; k < loop.size(); ++k) {
          const Curve& here = loop[k];
          const Curve& next = loop[(k + 1) % loop.size()];
          if (!is_arc(here) && !is_arc(next)) continue;
          CAPTURE(told(e), k);
          // Ends of arcs of 1e-4 m on a shape of 5 m are known to 5e4 x 1e-16
          // of the radius; a wrong bulge would be off by tenths.
          CHECK((outward_normal(here, 1) - outward_normal(next, 0)).norm() <
                1e-9);
        }
    }
  }
}

TEST_CASE("shapes that are alike left and right are so to the last digit") {
  for (const Example& e : examples())
    for (const Cut cut : kCuts) {
      if (kUnlikeLeftAndRight.contains(e.shape)) continue;
      const Outline o = draw(e, cut);
      CAPTURE(told(e), int(cut));
      for (const Loop& loop : o.loops)
        for (const Curve& c : loop) {
          bool found = false;
          for (const Loop& other : o.loops)
            for (const Curve& d : other)
              found = found || (d.from == Point(-c.to.x(), c.to.y()) &&
                                d.to == Point(-c.from.x(), c.from.y()) &&
                                d.bulge == c.bulge);
          CHECK(found);
        }
    }
}

TEST_CASE("coin with a rim: area, perimeter, faces") {
  const double d = 0.03, t = 0.0024, w = 0.002, h = 4e-4, e = 3e-4, q = 1e-4;
  const Example coin = examples_of("coin")[1];
  // The rectangle less two fields; eight rounded corners.
  const double corners = 4 * e * e + 4 * q * q;
  for (const Cut cut : kCuts) {
    const Outline o = draw(coin, cut);
    CHECK(area(o) == Approx(d * t - 2 * h * (d - 2 * w) - kCornerArea * corners)
                         .epsilon(kRounding));
    // Each of four shoulders adds the rim's height.
    CHECK(perimeter(o) ==
          Approx(2 * (d + t) + 4 * h - kCornerLength * 4 * (e + q))
              .epsilon(kRounding));
  }
  CHECK(faces(draw(coin)) ==
        std::set<std::string>{"left", "right", "upper rim", "lower rim"});
  CHECK(faces(draw(coin, Cut::axisymmetric)) ==
        std::set<std::string>{"upper face", "lower face", "rim"});
  // The faces lie where their names say, sunk by the rim's height.
  const auto place = [&](Cut cut, const std::string& face) {
    const Outline o = draw(coin, cut);
    for (const Curve& c : o.loops[0])
      if (c.face == face) return point_at(c, 0.5);
    return Point(0, 0);
  };
  CHECK((place(Cut::side, "left") - Point(h - t / 2, 0)).norm() < 1e-15);
  CHECK((place(Cut::side, "right") - Point(t / 2 - h, 0)).norm() < 1e-15);
  CHECK((place(Cut::axisymmetric, "upper face") - Point(0, t / 2 - h)).norm() <
        1e-15);
}

TEST_CASE("spoon: area, perimeter, box, faces") {
  for (const Example& e : examples_of("spoon")) {
    const double c = e.sizes.at("chord"), s = e.sizes.at("sagitta");
    const double t = e.sizes.at("thickness");
    // The inscribed angle at the chord's end is a quarter of the sweep.
    const double sweep = 4 * std::atan(2 * s / c);
    const double middle = c / 2 / std::sin(sweep / 2) * sweep;
    const Outline o = draw(e);
    CAPTURE(c, s, t);
    // A flat spoon's arcs are found from their sweep of some 1e-5, which is
    // known to 1e-16/1e-5. A strip of even thickness has the area of its middle
    // line times that, its two sides together twice its length.
    CHECK(area(o) == Approx(middle * t + pi * t * t / 4).epsilon(1e-9));
    CHECK(perimeter(o) == Approx(2 * middle + pi * t).epsilon(1e-9));
    // The lowest point is a radius below the centre: as exact as the radius.
    const double exact = 8 * 1.1e-16 * (c * c / 4 + s * s) / (2 * s);
    CHECK(std::abs(bounding_box(o).size().x() - (c + t)) < 1e-15 * c + exact);
    CHECK(std::abs(bounding_box(o).size().y() - (s + t)) < 1e-15 * c + exact);
  }
  const Example spoon = examples_of("spoon")[0];
  CHECK(faces(draw(spoon)) ==
        std::set<std::string>{"bowl", "back", "tip", "heel"});
  CHECK(faces(draw(spoon, Cut::axisymmetric)) ==
        std::set<std::string>{"bowl", "back", "rim"});
  const Outline upright = draw(spoon);
  for (const Curve& c : upright.loops[0]) {
    const Point n = outward_normal(c, 0.5);
    if (c.face == "bowl") CHECK(n.y() == Approx(1));
    if (c.face == "back") CHECK(n.y() == Approx(-1));
    if (c.face == "tip") CHECK(n.x() > 0.5);
    if (c.face == "heel") CHECK(n.x() < -0.5);
  }
}

TEST_CASE("bracket: area, perimeter, orientation, faces") {
  for (const Example& e : examples_of("bracket")) {
    const auto size = [&](const char* key) {
      return e.sizes.contains(key) ? e.sizes.at(key) : 0;
    };
    const double a = size("leg_1"), b = size("leg_2"), t = size("thickness");
    const double in = size("inside_radius"), out = size("outside_radius");
    const double end = size("end_radius");
    CAPTURE(a, b, t, in, out, end);
    for (const Cut cut : kCuts) {
      const Outline o = draw(e, cut);
      // Two legs that share their corner; metal is added inside it only.
      CHECK(area(o) ==
            Approx(t * (a + b - t) +
                   kCornerArea * (in * in - out * out - 4 * end * end))
                .epsilon(1e-9));
      CHECK(perimeter(o) ==
            Approx(2 * (a + b) - kCornerLength * (in + out + 4 * end))
                .epsilon(kRounding));
      CHECK(bounding_box(o).size().x() == Approx(a).epsilon(kRounding));
      CHECK(bounding_box(o).size().y() == Approx(b).epsilon(kRounding));
    }
  }
  const Outline o = draw(examples_of("bracket")[1]);
  CHECK(contains(o, {-0.0185, 0}));  // leg 2 stands at the left …
  CHECK(contains(o, {0, -0.0135}));  // … on leg 1
  CHECK_FALSE(contains(o, {0, 0}));
  CHECK(faces(o) == std::set<std::string>{"outside of leg 1", "inside of leg 1",
                                          "leg 1 end", "outside of leg 2",
                                          "inside of leg 2", "leg 2 end",
                                          "inside corner", "outside corner"});
  CHECK_FALSE(faces(draw(examples_of("bracket")[0])).contains("inside corner"));
}

TEST_CASE("channel: area, perimeter, orientation, faces") {
  for (const Example& e : examples_of("channel")) {
    const auto size = [&](const char* key) {
      return e.sizes.contains(key) ? e.sizes.at(key) : 0;
    };
    const double w = size("width"), d = size("depth"), t = size("wall");
    const double in = size("bottom_radius"), out = size("outside_radius");
    const double edge = size("edge_radius");
    CAPTURE(w, d, t, in, out, edge);
    for (const Cut cut : kCuts) {
      const Outline o = draw(e, cut);
      CHECK(area(o) == Approx(w * d - (w - 2 * t) * (d - t) +
                              kCornerArea * (2 * in * in - 2 * out * out -
                                             4 * edge * edge))
                           .epsilon(1e-9));
      // Around the outside, and twice down into the recess.
      CHECK(perimeter(o) ==
            Approx(2 * w + 2 * d + 2 * (d - t) -
                   kCornerLength * (2 * in + 2 * out + 4 * edge))
                .epsilon(kRounding));
    }
  }
  const Outline o = draw(examples_of("channel")[1]);
  CHECK_FALSE(contains(o, {0, 0.01}));  // the recess, open above
  CHECK(contains(o, {0, -0.019}));
  CHECK(contains(o, {0.014, 0}));
  const std::set<std::string> all{"left outside", "right outside", "left lip",
                                  "right lip",    "left wall",     "right wall",
                                  "bottom",       "underside"};
  CHECK(faces(o) == all);
  std::set<std::string> from_above = all;
  from_above.erase("underside");
  from_above.insert("back");
  CHECK(faces(draw(examples_of("channel")[1], Cut::plan)) == from_above);
  CHECK(faces(draw(examples_of("channel")[1], Cut::axisymmetric)) ==
        std::set<std::string>{"outside", "lip", "wall", "bottom", "underside"});
}

TEST_CASE("the surface of a body is its profile revolved") {
  for (const Example& e : examples()) {
    const std::optional<double> stated =
        find_shape(e.shape)->real_area(e.sizes);
    CAPTURE(told(e));
    CHECK(stated.has_value() == kBodyKnown.contains(e.shape));
    if (!stated) continue;
    // Midpoint rule over both halves of the profile; its error for a quarter
    // circle is (pi/2/n)^2/24, and straight pieces are exact.
    const int n = 2000;
    double sum = 0;
    const Outline profile = draw(e, Cut::axisymmetric);
    for (const Loop& loop : profile.loops)
      for (const Curve& c : loop)
        for (int k = 0; k < n; ++k)
          sum += pi * std::abs(point_at(c, (k + 0.5) / n).x()) * length(c) / n;
    CHECK(*stated == Approx(sum).epsilon(1e-7));
  }
}
