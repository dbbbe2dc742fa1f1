// Samples: each stretch of each key gets its share, and a seed makes the same.
#include "io/sweep.hpp"
#include "io/sweep_draw.hpp"
#include "tests/unit/sweep_requests.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

const std::vector<std::string> kVary{
    "supply.current=0.2 A..0.4 A", "step.1.duration=10 min..1000 min log",
    "solution.conductivity=10 S/m,20 S/m,30 S/m,40 S/m",
    "cathode.law=linear,tafel"};

io::Sweep sample(std::uint64_t points, std::uint64_t seed, bool sobol) {
  io::SweepRequest r = request_of(kVary, points);
  r.seed = seed;
  r.sobol = sobol;
  return io::Sweep(r);
}

std::vector<std::string> all_of(const io::Sweep& sweep) {
  std::vector<std::string> all;
  for (std::uint64_t k = 0; k < sweep.size(); ++k)
    all.push_back(texts_of(sweep, k));
  return all;
}

/// How many of a sweep's points lie in each of so many equal parts of its
/// first key; of the second, by factor.
std::vector<int> counts(const io::Sweep& sweep, std::size_t axis, int parts) {
  std::vector<int> all(static_cast<std::size_t>(parts), 0);
  for (std::uint64_t k = 0; k < sweep.size(); ++k) {
    const double x = sweep.number(k, axis);
    const double share = axis == 0 ? (x - 0.2) / 0.2 : std::log10(x / 10) / 2;
    REQUIRE(share >= 0);
    REQUIRE(share <= 1);
    ++all[std::min(static_cast<std::size_t>(share * parts), all.size() - 1)];
  }
  return all;
}

/// Points of a unit square in each box of 2^a by 2^b, by a+b bits.
bool is_even(const Eigen::MatrixXd& shares, int bits) {
  for (int a = 0; a <= bits; ++a) {
    const int across = 1 << a, up = 1 << (bits - a);
    std::vector<int> boxes(static_cast<std::size_t>(across * up), 0);
    for (Eigen::Index k = 0; k < shares.rows(); ++k)
      ++boxes[static_cast<std::size_t>(static_cast<int>(shares(k, 0) * across) *
                                           up +
                                       static_cast<int>(shares(k, 1) * up))];
    const int each = static_cast<int>(shares.rows()) >> bits;
    if (std::any_of(boxes.begin(), boxes.end(),
                    [&](int box) { return box != each; }))
      return false;
  }
  return true;
}

}  // namespace

TEST_CASE("a sample takes one from each nth of a range", "[sweep]") {
  for (const bool sobol : {false, true}) {
    CAPTURE(sobol);
    const io::Sweep sweep = sample(64, 3, sobol);
    CHECK_FALSE(sweep.is_grid());
    for (std::size_t axis : {0, 1})
      CHECK(counts(sweep, axis, 64) == std::vector<int>(64, 1));
    // Of a list and of words each has its share.
    for (std::size_t axis : {2, 3}) {
      const std::size_t values = sweep.axes()[axis].texts.size();
      std::vector<std::uint64_t> taken(values, 0);
      for (std::uint64_t k = 0; k < 64; ++k)
        ++taken[sweep.value_index(k, axis)];
      CHECK(taken == std::vector<std::uint64_t>(values, 64 / values));
    }
  }
  // Not a power of two: a hypercube does that too.
  CHECK(counts(sample(50, 3, false), 0, 50) == std::vector<int>(50, 1));
}

TEST_CASE("a seed makes the same points, another others", "[sweep]") {
  for (const bool sobol : {false, true}) {
    CAPTURE(sobol);
    const auto points = all_of(sample(40, 1, sobol));
    CHECK(points == all_of(sample(40, 1, sobol)));
    CHECK(points != all_of(sample(40, 2, sobol)));
    CHECK(points != all_of(sample(40, 1, !sobol)));
    CHECK(std::set<std::string>(points.begin(), points.end()).size() == 40);
  }
}

TEST_CASE("a Sobol sample is even in boxes too", "[sweep]") {
  // The first 2^m points of the first two columns are a (0, m, 2)-net in base
  // 2: every box of 2^-a by 2^-(m-a) holds exactly one of them. Flipping bits
  // of a column moves boxes onto boxes (Niederreiter 1987; from memory).
  for (const std::uint64_t seed : {0, 1, 2, 77}) {
    CAPTURE(seed);
    for (const int m : {1, 2, 3, 6, 10}) {
      CAPTURE(m);
      const Eigen::MatrixXd net = io::sobol_shares(1 << m, 2, seed);
      for (int bits = 0; bits <= m; ++bits) CHECK(is_even(net, bits));
    }
  }
  const Eigen::MatrixXd all = io::sobol_shares(4096, 20, 5);
  CHECK(all.minCoeff() > 0);
  CHECK(all.maxCoeff() < 1);
  // Every column by itself, as a hypercube.
  for (Eigen::Index j = 0; j < 20; ++j) {
    std::vector<int> strata;
    for (Eigen::Index k = 0; k < 4096; ++k)
      strata.push_back(static_cast<int>(4096 * all(k, j)));
    std::sort(strata.begin(), strata.end());
    for (int k = 0; k < 4096; ++k)
      if (strata[static_cast<std::size_t>(k)] != k) FAIL(j << " " << k);
  }
  // More points begin with the same ones.
  CHECK(io::sobol_shares(10, 3, 5) == io::sobol_shares(100, 3, 5).topRows(10));
  // By lot it is not so: the check can fail.
  CHECK_FALSE(is_even(Eigen::MatrixXd::Random(64, 2).cwiseAbs() * 0.999, 6));
}
