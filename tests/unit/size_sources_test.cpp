#include "mesh/size_sources.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <random>

using namespace thinspot::mesh;

namespace {

Curve line(const Point& from, const Point& to) { return {from, to, 0, ""}; }

/// Points, lines and arcs over a square, crowded towards one corner.
std::vector<SizeSource> by_lot(int count, unsigned seed) {
  std::mt19937 lot(seed);
  std::uniform_real_distribution<double> any(0, 1);
  std::vector<SizeSource> all;
  for (int k = 0; k < count; ++k) {
    Curve c = line({any(lot) * any(lot), any(lot) * any(lot)}, {0, 0});
    c.to =
        k % 3 == 0 ? c.from : Point(c.from + 0.1 * Point(any(lot), any(lot)));
    if (k % 3 == 2) c.bulge = 0.8 * any(lot) - 0.4;
    all.push_back({c, {}, 0.02 * any(lot), 0.3 + 0.4 * any(lot)});
  }
  return all;
}

/// One by one.
double asked_each(const std::vector<SizeSource>& sources, const Point& x,
                  double most) {
  double least = most;
  for (const SizeSource& s : sources)
    least = std::min(least, s.size + s.growth * nearest(s.curve, x).distance);
  return least;
}

}  // namespace

TEST_CASE("sources in boxes ask for what each of them asks for") {
  for (int count : {0, 1, 4, 5, 9, 64, 501}) {
    const auto sources = by_lot(count, 7);
    SizeSources boxed;
    int added = 0;
    for (const SizeSource& s : sources) {
      // The last tenth is added when the others are in their boxes.
      if (added++ == count - count / 10) boxed.sort();
      boxed.add(s.curve, s.size, s.growth);
    }
    std::mt19937 lot(11);
    std::uniform_real_distribution<double> any(-0.5, 1.5);
    for (int round : {0, 1}) {
      CAPTURE(count, round);
      for (int k = 0; k < 500; ++k) {
        const Point x(any(lot), any(lot));
        // A box's distance is rounded otherwise than that of what is in it.
        CHECK(boxed.least_at(x, 0.2) ==
              Approx(asked_each(sources, x, 0.2)).epsilon(1e-14));
      }
      boxed.sort();
    }
  }
}

TEST_CASE("all in one place, and what is no number, end") {
  SizeSources boxed;
  for (int k = 0; k < 1000; ++k)
    boxed.add(line({1, 1}, {1, 1}), 0.001 * (1 + k), 0.5);
  boxed.sort();
  CHECK(boxed.least_at({1, 3}, 10) == Approx(0.001 + 1));
  const double none = std::numeric_limits<double>::quiet_NaN();
  boxed.add(line({none, 0}, {0, 0}), 0.1, 0.5);
  boxed.sort();
  CHECK(boxed.least_at({1, 3}, 10) == Approx(0.001 + 1));
}
