#include "mesh/liquid.hpp"

#include "mesh/cut_by_boolean.hpp"
#include "mesh_samples.hpp"
#include "tests/solids.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <tuple>

using namespace thinspot;
using mesh::Point;

namespace {

using Key = std::tuple<int, int, int>;

/// Length of the liquid's boundary on each curve of the outlines [m].
std::map<Key, double> lengths(const std::vector<mesh::LiquidCurve>& curves) {
  std::map<Key, double> all;
  for (const mesh::LiquidCurve& c : curves)
    all[{c.owner, c.loop, c.curve}] += mesh::length(c.piece.curve);
  return all;
}

}  // namespace

TEST_CASE("outlines that stand free are what a boolean would leave") {
  for (const tests::Meshed& sample :
       {tests::meshed_coin(), tests::meshed_plates()}) {
    CAPTURE(sample.name);
    const auto free = lengths(mesh::cut_liquid(sample.section).curves);
    const auto cut = lengths(mesh::cut_by_boolean(sample.section));
    REQUIRE(free.size() == cut.size());
    for (const auto& [key, length] : cut)
      CHECK(free.at(key) == Approx(length).epsilon(1e-6));
  }
}

TEST_CASE("every vertex of the liquid's boundary has two ends") {
  for (const tests::Meshed& sample : tests::meshed_samples()) {
    CAPTURE(sample.name);
    std::map<int, std::vector<Point>> ends;
    for (const mesh::LiquidCurve& c : mesh::cut_liquid(sample.section).curves) {
      ends[c.piece.start_vertex].push_back(c.piece.curve.from);
      ends[c.piece.end_vertex].push_back(c.piece.curve.to);
    }
    const double near = 1e-9 * mesh::extent(sample.section);
    for (const auto& [vertex, points] : ends) {
      REQUIRE(points.size() == 2);
      CHECK((points[0] - points[1]).norm() < near);
    }
  }
}
