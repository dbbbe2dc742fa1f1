// Meshes whose systems are solved by iteration: against a factor on the same
// mesh, and against an exact solution.
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/estimate.hpp"
#include "solver/linear_solve.hpp"
#include "solver/system_size.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using Eigen::Index;
using Eigen::MatrixXd;
using solver::SparseMatrix;

namespace {

constexpr double pi = std::numbers::pi;

/// Refined until its system is iterated.
solver::Model large_model(const solver::Case& c) {
  return tests::model_of(c, solver::kIteratedFrom);
}

/// Potential everywhere for one volt behind each law, by a factor.
MatrixXd factored(const solver::Model& model, double conductivity,
                  const solver::LocalLaws& laws) {
  const solver::Electrodes& electrodes = model.response.electrodes();
  const std::vector<int>& node = electrodes.nodes.mesh_node;
  const Index n = model.mesh.nodes.cols(),
              rows = static_cast<Index>(node.size());
  const auto at = [&](Index row) {
    return node[static_cast<std::size_t>(row)];
  };
  std::vector<Eigen::Triplet<double>> entries;
  solver::for_each_law_entry(electrodes, laws, [&](int j, int k, double v) {
    entries.emplace_back(at(j), at(k), v);
  });
  SparseMatrix system(n, n);
  system.setFromTriplets(entries.begin(), entries.end());
  system += conductivity * solver::assemble_stiffness(model.mesh);
  std::vector<bool> held(static_cast<std::size_t>(n), false);
  for (Index row : solver::find_fixed(electrodes, laws).fixed)
    held[static_cast<std::size_t>(at(row))] = true;
  MatrixXd right = MatrixXd::Zero(n, laws.drives()), potential = right;
  right(node, Eigen::all) = solver::unit_loads(electrodes, rows, laws);
  potential(node, Eigen::all) = solver::held_shares(electrodes, rows, laws);
  solver::solve_with_held(system, held, right, potential);
  return potential;
}

}  // namespace

// One volt has an energy of the size of 1 at conductivity 1, of whose root the
// iteration leaves 1e-10; at single nodes not more than the logarithm of the
// mesh's fineness times that. Behind large resistances the liquid is at one
// potential, which the factor knows to rounding times what the law lacks beside
// the stiffness, 2e5 here, and the root of the number of rows.
TEST_CASE("large meshes answer as a factor does", "[property]") {
  solver::Case c = tests::token();
  const solver::Model model = large_model(c);
  REQUIRE(model.response.condensed().size() == 0);
  struct Row {
    solver::LocalLaws laws;
    double same;
  };
  for (const Row& row : {Row{{2.6e-4, 0}, 2e-9}, Row{{1e-7, 1e-2}, 2e-9},
                         Row{{100, 100}, 2e-8}}) {
    CAPTURE(row.laws.resistance);
    const MatrixXd exact = factored(model, 20, row.laws);
    const solver::UnitAnswers found = model.response.answer(20, row.laws);
    const std::vector<int>& node = model.response.electrodes().nodes.mesh_node;
    CHECK((found.potential - exact(node, Eigen::all)).cwiseAbs().maxCoeff() <
          row.same);
    CHECK((model.response.everywhere(found.potential) - exact)
              .cwiseAbs()
              .maxCoeff() < row.same);
    // A symmetric cell: what goes from one to the other comes back.
    const double most = found.current.cwiseAbs().maxCoeff();
    CHECK(std::abs(found.current(0, 1) - found.current(1, 0)) < 1e-8 * most);
  }
}

// Rod in an open tube: I' = V / [ln(r2/r1)/(2 pi kappa) + R/(2 pi r1)]. Source
// as in concentric_cylinders_test.cpp. Bars are the program's own.
TEST_CASE("concentric cylinders on a large mesh", "[exact]") {
  const double r1 = .01, r2 = .05, kappa = 5;
  const double law = GENERATE(1e-3, 0.0);
  CAPTURE(law);
  const solver::Case c = tests::rod_in_tube(r1, r2, kappa, law, 0);
  const double exact =
      1 / (std::log(r2 / r1) / (2 * pi * kappa) + law / (2 * pi * r1));
  const solver::Model model = large_model(c);
  const solver::Outcome outcome = solver::evaluate(model, c);
  const solver::Estimate estimate = solver::estimate_errors(model, c, outcome);
  const double off = std::abs(outcome.point.total_current - exact);
  CHECK(off <= estimate.errors.current);
  CHECK(off < 1e-8 * exact);
  const solver::Spread& i = outcome.parts[0].current_density_spread;
  const double density = exact / (2 * pi * r1);
  CHECK(std::abs(i.mean - density) <= estimate.errors.parts[0].mean);
}
