// The reduced case against the program's own response on all nodes, at settings
// that its basis was not made of. It is made to keep 1e-4 of the parts' mean
// current density; on the page that is a tenth of what is promised.
#include "solver/what_if.hpp"
#include "bench_cases.hpp"
#include "solver/schedule.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Cholesky>

#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

using namespace thinspot;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double kKept = 1e-4;

/// Coordinates of the potential for these drives: the system as a page has it.
VectorXd coordinates(const solver::WhatIfGeometry& g, std::size_t turn,
                     double conductivity, const std::vector<double>& resistance,
                     const VectorXd& drive) {
  const Index n = g.stiffness[turn].rows(), free = n - g.held;
  MatrixXd a = conductivity * g.stiffness[turn];
  VectorXd load = VectorXd::Zero(n), x = VectorXd::Zero(n);
  Index lift = 0;
  for (std::size_t e = 0; e < g.electrodes.size(); ++e) {
    const double volts = drive(static_cast<Index>(e));
    if (resistance[e] == 0) {
      x(lift++) = volts;
      continue;
    }
    a += g.electrodes[e].mass / resistance[e];
    load += g.electrodes[e].weight * (volts / resistance[e]);
  }
  x.tail(free) = a.bottomRightCorner(free, free)
                     .llt()
                     .solve(load.tail(free) -
                            a.bottomLeftCorner(free, g.held) * x.head(g.held));
  return x;
}

/// Thickness of the first part at its places, from one step at these laws.
VectorXd thickness(const solver::WhatIf& what, std::size_t turn,
                   double conductivity, const std::vector<double>& resistance,
                   const VectorXd& drive, double growth) {
  const solver::WhatIfGeometry& g = what.geometries.front();
  const VectorXd x = coordinates(g, turn, conductivity, resistance, drive);
  std::size_t part = 0;
  while (g.electrodes[part].part != 0) ++part;
  const solver::WhatIfOnPart& on = g.parts.front();
  const VectorXd density =
      resistance[part] == 0
          ? VectorXd(conductivity * on.held[turn] * x)
          : VectorXd((on.potential * x -
                      on.wetted * drive(static_cast<Index>(part))) /
                     resistance[part]);
  const auto& places = what.parts.front().places;
  VectorXd along(static_cast<Index>(places.size()));
  for (std::size_t k = 0; k < places.size(); ++k)
    along(static_cast<Index>(k)) = growth * places[k].weights.dot(density);
  return along;
}

/// The program's answer to a case against the reduced one's, both at the laws
/// that the program found for it.
void check_case(const solver::Case& c, double current, double conductivity,
                double polarization) {
  const solver::Schedule schedule = solver::run_schedule(c);
  const solver::WhatIfAnswer answer = solver::what_if(schedule, c);
  INFO(answer.why_not);
  REQUIRE(answer.model);
  const solver::WhatIf& what = *answer.model;
  const solver::SolvedStep& step = schedule.steps.front();
  const solver::Model& model = step.solved->model;
  const solver::Case other =
      solver::turned_by(step.used, current, conductivity, polarization);
  const solver::Outcome outcome = solver::evaluate(model, other);
  const double growth = step.growth;
  const VectorXd ours = thickness(what, what.steps.front().turns.front().turn,
                                  other.solution.conductivity.value,
                                  solver::resistances_of(outcome.point.laws),
                                  outcome.point.drive, growth);
  const solver::Spread& exact = outcome.parts.front().current_density_spread;
  const auto& places = what.parts.front().places;
  double least = HUGE_VAL, largest = -HUGE_VAL;
  for (std::size_t k = 0; k < places.size(); ++k) {
    if (!places[k].open) continue;
    least = std::min(least, ours(static_cast<Index>(k)));
    largest = std::max(largest, ours(static_cast<Index>(k)));
  }
  const double mean = growth * exact.mean;
  CHECK(std::abs(least - growth * exact.min) < kKept * mean);
  CHECK(std::abs(largest - growth * exact.max) < kKept * mean);
}

}  // namespace

TEST_CASE("reduced: a token as its case has it, and at other settings") {
  check_case(tests::token(), 1, 1, 1);
  // A little off the places where the case is least and largest: they are
  // dense there.
  check_case(tests::token(), 1.4, 1.1, 0.9);
  check_case(tests::token(), 0.4, 0.8, 1.3);
}

TEST_CASE("reduced: a part that holds its potential") {
  solver::Case c = tests::token();
  c.cathode.resistance = {};
  c.cathode.at.reset();
  check_case(c, 1, 1, 1);
  check_case(c, 1.7, 0.7, 1);
}

// What the page puts into its words for the command line: values of the case as
// it was given, those of its steps too.
TEST_CASE("reduced: the keys that each knob turns") {
  solver::Case c = tests::token();
  c.cathode.law = solver::Law::butler_volmer;
  c.cathode.exchange_current_density.value = 20;
  c.cathode.tafel_slope.value = 0.12;
  c.cathode.reverse_tafel_slope.value = 0.1;
  c.cathode.at.reset();
  c.supply = {};
  c.supply.current = solver::Quantity{0.3};
  solver::Step second = c.steps.front();
  second.supply = c.supply;
  second.supply->current->value = 0.2;
  second.temperature = c.solution.temperature + 5;
  second.conductivity = solver::Quantity{c.solution.conductivity.value + 2};
  c.steps.push_back(second);
  const solver::WhatIfAnswer answer =
      solver::what_if(solver::run_schedule(c), c);
  REQUIRE(answer.model);
  using Keys = std::vector<std::pair<std::string, double>>;
  const auto listed = [](const std::vector<solver::WhatIfKey>& keys) {
    Keys all;
    for (const solver::WhatIfKey& k : keys) all.emplace_back(k.key, k.value);
    return all;
  };
  CHECK(listed(answer.model->current) ==
        Keys{{"supply.current", 0.3}, {"step.2.supply.current", 0.2}});
  CHECK(listed(answer.model->conductivity) ==
        Keys{{"solution.conductivity", c.solution.conductivity.value},
             {"step.2.conductivity", c.solution.conductivity.value + 2}});
  CHECK(listed(answer.model->polarization) ==
        Keys{{"cathode.tafel_slope", 0.12},
             {"cathode.reverse_tafel_slope", 0.1}});
}

TEST_CASE("reduced: constants carry no current at any turn") {
  solver::Case c = tests::token();
  c.section.cut = mesh::Cut::plan;
  c.steps.front().turning = solver::Turning{4, 0, 0};
  const solver::Schedule schedule = solver::run_schedule(c);
  REQUIRE(schedule.steps.front().turnable >= 0);
  const solver::WhatIfAnswer answer = solver::what_if(schedule, c);
  INFO(answer.why_not);
  REQUIRE(answer.model);
  const solver::WhatIfGeometry& g = answer.model->geometries.front();
  CHECK(answer.model->steps.front().turns.size() == 4);
  CHECK(answer.model->steps.front().positions.size() ==
        std::size_t{solver::kTurnPositions});
  CHECK(g.stiffness.size() == std::size_t{solver::kTurnPositions});
  for (std::size_t t = 0; t < g.stiffness.size(); ++t) {
    // One volt everywhere: what drives of one volt make of any laws.

    std::vector<double> mixed;
    for (const auto& law : schedule.steps.front().solved->outcome.point.laws)
      mixed.push_back(law.resistance);
    const VectorXd x =
        coordinates(g, t, 1, mixed,
                    VectorXd::Ones(static_cast<Index>(g.electrodes.size())));
    CHECK((g.stiffness[t] * x).norm() <
          1e-9 * g.stiffness[t].norm() * x.norm());
    CHECK((g.stiffness[t] - g.stiffness[t].transpose()).norm() <
          1e-12 * g.stiffness[t].norm());
  }
}

TEST_CASE("reduced: no more places than a page shows, each an average") {
  const solver::Case c = tests::token();
  const solver::Schedule schedule = solver::run_schedule(c);
  const solver::WhatIfAnswer answer = solver::what_if(schedule, c);
  REQUIRE(answer.model);
  const auto& places = answer.model->parts.front().places;
  CHECK(places.size() <= solver::kMostPlaces);
  CHECK(places.size() > 100);
  for (std::size_t k = 0; k < places.size(); ++k) {
    CHECK(places[k].weights.sum() == Approx(1).epsilon(1e-9));
    if (k > 0) CHECK(places[k].window.arc >= places[k - 1].window.arc);
  }
}

TEST_CASE("reduced: a surface that moves is told of, not answered for") {
  solver::Case c = tests::token();
  c.growth = true;
  const solver::Schedule schedule = solver::run_schedule(c);
  const solver::WhatIfAnswer answer = solver::what_if(schedule, c);
  CHECK_FALSE(answer.model);
  CHECK(answer.why_not.find("moves") != std::string::npos);
}
