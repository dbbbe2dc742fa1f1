// Draws by lot, and what groups of inputs go together.
#include "solver/draws.hpp"
#include "solver/correlation.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace thinspot::solver;
using Catch::Matchers::WithinAbs;

TEST_CASE("normal quantiles are those of the tables", "[draws]") {
  // Source: any table of the normal distribution; 0.975 with more digits in
  // the On-Line Encyclopedia of Integer Sequences, A220510 (from memory).
  CHECK_THAT(normal_quantile(0.975), WithinAbs(1.959963984540054, 1e-12));
  CHECK_THAT(normal_quantile(0.5), WithinAbs(0, 1e-15));
  CHECK_THAT(normal_quantile(0.9), WithinAbs(1.2816, 5e-5));
  CHECK_THAT(normal_quantile(0.999), WithinAbs(3.0902, 5e-5));
  for (double share : {1e-12, 1e-6, 0.01, 0.3, 0.7, 0.9999})
    CHECK(normal_share(normal_quantile(share)) == Approx(share).epsilon(1e-10));
}

TEST_CASE("each input is drawn once from each nth", "[draws]") {
  const Eigen::Index n = 50;
  const Eigen::MatrixXd drawn = drawn_normals(n, 3, 7);
  for (Eigen::Index j = 0; j < 3; ++j) {
    std::vector<int> strata;
    for (Eigen::Index k = 0; k < n; ++k)
      strata.push_back(static_cast<int>(n * normal_share(drawn(k, j))));
    // By lot, not in order.
    CHECK_FALSE(std::is_sorted(strata.begin(), strata.end()));
    std::sort(strata.begin(), strata.end());
    for (int k = 0; k < n; ++k) CHECK(strata[static_cast<std::size_t>(k)] == k);
  }
  CHECK(drawn == drawn_normals(n, 3, 7));
  CHECK(drawn != drawn_normals(n, 3, 8));
  CHECK(drawn.col(0) != drawn.col(1));
}

TEST_CASE("quantiles and chances", "[draws]") {
  CHECK(quantile({3, 1, 2}, 0.5) == 2);
  CHECK(quantile({4, 1, 2, 3}, 0.5) == 2.5);
  CHECK(quantile({1, 2}, 0.001) == 1);
  CHECK(quantile({5}, 0.975) == 5);
  CHECK(chance_above(10, 10, 1, 2) == 0.5);
  // At an end of the band lies what a 95 % band leaves beyond it.
  CHECK(chance_above(9, 10, 1, 2) == Approx(0.975));
  CHECK(chance_above(12, 10, 1, 2) == Approx(0.025));
  CHECK(chance_above(9, 10, 0, 0) == 1);
  CHECK(chance_above(11, 10, 1, 0) == 0);
}

TEST_CASE("directions make up the covariance", "[draws]") {
  Case c;
  c.solution.conductivity = {20, 2};
  c.solution.efficiency = {1, 0};
  c.cathode.resistance = {3, 0.6, true};
  c.cathode.offset = {0.1, 0.02};
  c.correlated = {
      {{"solution.conductivity", "cathode.polarization_resistance"}, 0.9},
      {{"solution.efficiency", "solution.conductivity"}, 0.5}};
  const std::vector<InputGroup> groups = input_groups(c);
  // What is exact goes with nothing.
  REQUIRE(groups.size() == 2);
  REQUIRE(groups[0].keys.size() == 2);
  CHECK(groups[1].keys ==
        std::vector<std::string>{"cathode.polarization_offset"});
  CHECK(is_possible(groups[0]));
  Eigen::Matrix2d covariance = Eigen::Matrix2d::Zero();
  for (const Direction& d : directions_of(groups[0])) {
    covariance += d.change * d.change.transpose();
    // No further than an even range goes.
    CHECK(std::abs(d.reach * d.change(1)) <= 0.6);
  }
  const double even = 0.6 * 1.959963984540054 / std::sqrt(3.0);
  CHECK(covariance(0, 0) == Approx(4));
  CHECK(covariance(1, 1) == Approx(even * even));
  CHECK(covariance(0, 1) == Approx(0.9 * 2 * even));
}

TEST_CASE("pairs that cannot all be are seen", "[draws]") {
  InputGroup group{{"a", "b", "c"}, {{}, {}, {}}, {}};
  group.correlation.resize(3, 3);
  group.correlation << 1, 0.9, -0.9, 0.9, 1, 0.9, -0.9, 0.9, 1;
  CHECK_FALSE(is_possible(group));
  group.correlation << 1, 0.9, 0.8, 0.9, 1, 0.9, 0.8, 0.9, 1;
  CHECK(is_possible(group));
}
