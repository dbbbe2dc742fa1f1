// What is linear superposes, and what one electrode gives another it would get
// from it: Maxwell's reciprocity, by the symmetry of the operator. Both hold
// for the discrete system but for rounding, whatever the mesh.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;

namespace {

/// The token before a sheet, and a rod beside it.
solver::Case two_anodes() {
  solver::Case c = tests::token();
  c.cathode.at.reset();
  c.section.solids.push_back(tests::solid(
      mesh::Role::anode, "rod", "rod", {{"diameter", 0.008}}, {0.075, 0.03}));
  tests::add_anode(c, 2, 3e-4);
  c.supply = {};
  c.supply.voltage = solver::Quantity{1, 0};
  return c;
}

void record_rounding(const char* name, const char* source, const char* quantity,
                     double found, double bar) {
  tests::record(name, source, quantity, 0, {found, bar},
                {tests::Order::Kind::exact});
}

}  // namespace

TEST_CASE("reciprocity", "[exact][table]") {
  const auto s = tests::solved(two_anodes());
  const Eigen::MatrixXd& op = s.model.response.condensed();
  REQUIRE(op.rows() > 50);
  const double scale = op.norm();
  const char* name = "reciprocity";
  const char* source = "Maxwell, by symmetry";
  record_rounding(name, source, "response operator S: norm of S - S' over S",
                  (op - op.transpose()).norm() / scale, 1e-12);
  record_rounding(
      name, source, "constants carry no current: norm of S 1 over S",
      (op * Eigen::VectorXd::Ones(op.rows())).norm() / scale, 1e-12);
  // Electrode to electrode, through a solve with laws: rounding times its
  // condition, below 1e4 here.
  const Eigen::MatrixXd& g = s.outcome.point.answers.current;
  REQUIRE(g.rows() == 3);
  REQUIRE(std::abs(g(1, 2)) > 1e-3 * g.cwiseAbs().maxCoeff());
  record_rounding(name, source, "sheet to rod less rod to sheet, over either",
                  g(1, 2) / g(2, 1) - 1, 1e-10);
}

TEST_CASE("superposition", "[exact][table]") {
  // Voltages behind the anodes enter in sums: with both, as with the one, and
  // with the other, less with none.
  const auto densities = [](double sheet, double rod, double supply) {
    solver::Case c = two_anodes();
    c.anodes[0].open_circuit_voltage.value = sheet;
    c.anodes[1].open_circuit_voltage.value = rod;
    c.supply.voltage->value = supply;
    static const auto model = solver::build_model(c);
    return Eigen::VectorXd(
        solver::evaluate(model, c).parts.at(0).current_density);
  };
  const Eigen::VectorXd none = densities(0, 0, 1), both = densities(.2, .1, 1);
  const Eigen::VectorXd sum = densities(.2, 0, 1) + densities(0, .1, 1) - none;
  const double scale = none.norm();
  REQUIRE((both - none).norm() > 0.1 * scale);
  const char* name = "superposition";
  const char* source = "linearity";
  record_rounding(name, source, "voltages behind two anodes, over i",
                  (both - sum).norm() / scale, 1e-10);
  record_rounding(name, source, "three times the voltage, over i",
                  (densities(0, 0, 3) - 3 * none).norm() / scale, 1e-10);
}
