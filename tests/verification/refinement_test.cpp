// Where refining ends when the tolerance is out of reach.
#include "solver/refinement.hpp"
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/certify.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using Eigen::Index;

namespace {

constexpr double pi = std::numbers::pi;

}  // namespace

TEST_CASE("a mesh that would have to be iterated is made for a last round") {
  const solver::Case c = tests::token();
  // Too large for each of its triangles to be made into four.
  const solver::Model model = tests::model_of(c, solver::kMostNodes / 4);
  const Index now = model.mesh.nodes.cols();
  REQUIRE(now < solver::kMostNodes * 17 / 20);
  solver::Outcome outcome = solver::evaluate(model, c);
  solver::Estimate e = solver::estimate_errors(model, c, outcome);
  std::vector<int> all(static_cast<std::size_t>(e.share.rows()));
  for (std::size_t t = 0; t < all.size(); ++t) all[t] = static_cast<int>(t);

  e.allowed = e.bar / 1.5;
  REQUIRE(solver::rounds_to_come(e) == 1);
  const auto once = solver::refined_as_far(model, e, all);
  REQUIRE(once);
  CHECK(once->mesh.nodes.cols() > solver::kMostNodes);
  CHECK_FALSE(once->last);

  e.allowed = e.bar / 10;
  const auto as_far = solver::refined_as_far(model, e, all);
  REQUIRE(as_far);
  CHECK(as_far->last);
  CHECK(as_far->mesh.nodes.cols() <= solver::kMostNodes);
  CHECK(as_far->mesh.nodes.cols() - now > (solver::kMostNodes - now) / 2);
}

TEST_CASE("triangles come in the order of what refining them is worth") {
  const solver::Case c = tests::token();
  const solver::Model model = solver::build_model(c);
  solver::Estimate e =
      solver::estimate_errors(model, c, solver::evaluate(model, c));
  e.allowed = e.bar / 4;
  const auto worth = [&](int t) {
    return (e.share.row(t).transpose().array() / e.allowed.array() *
            (e.bar.array() > e.allowed.array()).cast<double>())
        .maxCoeff();
  };
  const std::vector<int> marked = solver::triangles_to_refine(model, e, {});
  REQUIRE(marked.size() > 2);
  for (std::size_t k = 1; k < marked.size(); ++k)
    CHECK(worth(marked[k - 1]) >= worth(marked[k]));
}

// Rod in an open tube, as in concentric_cylinders_test.cpp, asked for more than
// rounding gives.
TEST_CASE("out of reach, the mesh stays small and the bar true", "[exact]") {
  const double r1 = .01, r2 = .05, kappa = 5, law = 1e-3;
  solver::Case c = tests::rod_in_tube(r1, r2, kappa, law, 0);
  c.accuracy.tolerance = 1e-11;
  const solver::Certified done = solver::certify(solver::build_model(c), c);
  CHECK_FALSE(done.within);
  CHECK(done.model.mesh.nodes.cols() <= solver::kMostNodes);
  CHECK(done.model.mesh.nodes.cols() > solver::kMostNodes / 2);
  const double exact =
      1 / (std::log(r2 / r1) / (2 * pi * kappa) + law / (2 * pi * r1));
  CHECK(std::abs(done.outcome.point.total_current - exact) <=
        done.errors.current);
}
