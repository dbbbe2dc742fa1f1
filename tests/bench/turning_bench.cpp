// What the condensed response saves: a change of supply or of polarization
// against solving anew; a part at 72 angles against a mesh for each of them,
// with what they are off against solutions a hundred times finer. Eight angles
// are enough for the mean over a turn, so that a loop of eight meshes is the
// fair comparison there. What general programs take for it:
// tests/bench/compare.
#include "solver/certify_turned.hpp"
#include "solver/extremes.hpp"
#include "solver/linear_solve.hpp"
#include "solver/rescaling.hpp"
#include "tests/bench/compared_cases.hpp"
#include "tests/bench/timing.hpp"
#include "tests/verification/bench_cases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

using namespace thinspot;
using bench::median_of;

namespace {

using Three = std::array<double, 3>;

Three three_of(const solver::Outcome& o) {
  const solver::Spread& s = o.parts[0].current_density_spread;
  return {s.min, s.mean, s.max};
}

/// Every twelfth angle, a hundred times finer.
std::vector<Three> truth() {
  std::vector<Three> all;
  for (int k = 0; k < bench::kAngles; k += 12) {
    solver::Case c = bench::coin(bench::angle(k));
    c.accuracy.tolerance = 1e-5;
    all.push_back(three_of(solver::certify(solver::build_model(c), c).outcome));
  }
  return all;
}

/// Largest error over those angles, of the mean.
void print_errors(const std::vector<Three>& found,
                  const std::vector<Three>& exact) {
  Three worst{};
  for (std::size_t k = 0; k < exact.size(); ++k)
    for (std::size_t j = 0; j < 3; ++j)
      worst[j] = std::max(
          worst[j], std::abs(found[12 * k][j] - exact[k][j]) / exact[k][1]);
  fmt::print("    off at most: least {:.1e}, mean {:.1e}, largest {:.1e}\n",
             worst[0], worst[1], worst[2]);
}

/// One angle after another on one mesh: currents, and along the token the
/// current density with its least and largest averages.
std::vector<Three> all_by_turnable() {
  const auto turnable = solver::build_turnable(bench::coin());
  const solver::Model model = solver::turned_model(*turnable, bench::coin());
  std::vector<Three> all;
  for (int k = 0; k < bench::kAngles; ++k) {
    const solver::Case c = bench::coin(bench::angle(k));
    const solver::Response there = solver::turned_response(*turnable, c, 0);
    const auto w = solver::find_working_point(there, c, model.scale);
    const solver::Surface& surface = model.surfaces[0];
    const std::size_t on = surface.electrode;
    const Eigen::VectorXd density =
        there.current_density(on, w.answers, w.drive, w.laws[on].resistance);
    const double mean =
        w.current(static_cast<Eigen::Index>(on)) /
        (there.electrodes().each[on].measure * model.scale.depth);
    const auto averages = solver::averages_over(
        surface, density, c.accuracy.averaging_length, false);
    all.push_back({solver::most_extreme(averages, -1, mean).value, mean,
                   solver::most_extreme(averages, 1, mean).value});
  }
  return all;
}

std::vector<Three> all_by_meshes(int count) {
  std::vector<Three> all;
  for (int k = 0; k < count; ++k) {
    const solver::Case c = bench::coin(2 * std::numbers::pi * k / count);
    all.push_back(three_of(solver::evaluate(solver::build_model(c), c)));
  }
  return all;
}

/// Laws that are no straight lines, on the same response: Newton's method from
/// an even start.
void print_curved(const solver::Model& model, double full) {
  solver::Case c = tests::token();
  c.cathode = {};
  c.cathode.exchange_current_density.value = 1;
  c.cathode.tafel_slope.value = c.cathode.reverse_tafel_slope.value = 0.12;
  c.solution.limiting_current_density = solver::Quantity{800, 0};
  for (const solver::Law law : {solver::Law::tafel, solver::Law::butler_volmer})
    for (const bool limited : {false, true}) {
      c.cathode.law = law;
      c.cathode.mass_transfer = limited;
      const solver::WorkingPoint w =
          solver::find_working_point(model.response, c, model.scale);
      const double all = median_of(51, [&] {
        solver::find_working_point(model.response, c, model.scale);
      });
      const auto rounds = static_cast<double>(w.bent.size());
      fmt::print(
          "  {}{}: {} rounds of Newton's method, {:.3f} ms each, {:.0f} times "
          "faster than a full solve\n",
          law == solver::Law::tafel ? "Tafel" : "Butler-Volmer",
          limited ? " below 8 A/dm2" : "", w.bent.size(), all / rounds,
          full * rounds / all);
    }
}

void print_response() {
  const solver::Case c = bench::coin();
  const solver::Model model = solver::build_model(c);
  const double formed = median_of(
      15, [&] { const solver::Response again(model.mesh, model.section); });
  const double full = median_of(15, [&] {
    solver::SparseMatrix system = 20 * solver::assemble_stiffness(model.mesh);
    const auto electrodes = solver::find_electrodes(model.mesh, model.section);
    std::vector<bool> held(static_cast<std::size_t>(system.rows()), false);
    std::vector<Eigen::Triplet<double>> entries;
    Eigen::MatrixXd right = Eigen::MatrixXd::Zero(system.rows(), 1);
    Eigen::MatrixXd potential = right;
    const auto node = [&](const solver::Electrode& e, Eigen::Index k) {
      return electrodes.nodes.mesh_node[static_cast<std::size_t>(
          e.rows[static_cast<std::size_t>(k)])];
    };
    const solver::Electrode &part = electrodes.each[0],
                            &anode = electrodes.each[1];
    for (Eigen::Index j = 0; j < part.mass.outerSize(); ++j)
      for (solver::SparseMatrix::InnerIterator it(part.mass, j); it; ++it)
        entries.emplace_back(node(part, it.row()), node(part, it.col()),
                             it.value() / 2.6e-4);
    for (Eigen::Index k = 0; k < anode.weight.size(); ++k) {
      held[static_cast<std::size_t>(node(anode, k))] = true;
      potential(node(anode, k), 0) = 1;
    }
    solver::SparseMatrix law(system.rows(), system.rows());
    law.setFromTriplets(entries.begin(), entries.end());
    system += law;
    solver::solve_with_held(system, held, right, potential);
  });
  double r = 2.6e-4;
  const double by_law = median_of(101, [&] {
    solver::Case d = c;
    d.cathode.resistance.value = r *= 1.001;
    solver::find_working_point(model.response, d, model.scale);
  });
  solver::WorkingPoint w =
      solver::find_working_point(model.response, c, model.scale);
  const double by_supply = median_of(101, [&] {
    solver::Case d = c;
    d.supply.voltage->value *= 1.001;
    solver::operate(w, d, model.scale);
  });
  solver::Case follows = tests::token();
  solver::WorkingPoint near =
      solver::find_working_point(model.response, follows, model.scale);
  const double newton = median_of(101, [&] {
    const auto r2 =
        solver::rescaling(near, model.response, follows, model.scale.depth);
    solver::newton_step(near, r2, model.response, follows, model.scale);
  });
  fmt::print(
      "response of {} unknowns, {} on metal: formed in {:.2f} ms\n"
      "  full solve, assembled, factored, solved: {:.2f} ms\n"
      "  other resistance {:.3f} ms, {:.0f} times faster; other supply {:.4f} "
      "ms, {:.0f} times; step of Newton's method for slopes that follow the "
      "current {:.4f} ms\n",
      model.mesh.nodes.cols(), model.response.condensed().rows(), formed, full,
      by_law, full / by_law, by_supply, full / by_supply, newton);
  print_curved(model, full);
}

}  // namespace

int main() {
  print_response();
  const std::vector<Three> exact = truth();
  std::vector<Three> found;
  fmt::print("a token at {} angles, 0.1 % asked for\n", bench::kAngles);
  found = all_by_turnable();
  const double turned = median_of(9, [&] { all_by_turnable(); });
  const auto turnable = solver::build_turnable(bench::coin());
  fmt::print("  one mesh, {} unknowns, {} waves: {:.1f} ms in all\n",
             turnable->mesh.nodes.cols(), turnable->response->waves(), turned);
  fmt::print("    of that meshing {:.1f}, condensing {:.1f}\n",
             1e3 * turnable->mesh_seconds, 1e3 * turnable->response_seconds);
  print_errors(found, exact);
  found = all_by_meshes(bench::kAngles);
  const double meshes = median_of(3, [&] { all_by_meshes(bench::kAngles); });
  fmt::print("  a mesh for each: {:.0f} ms, {:.0f} times as long\n", meshes,
             meshes / turned);
  print_errors(found, exact);
  const double eight = median_of(5, [&] { all_by_meshes(8); });
  fmt::print("  a mesh for each of 8: {:.0f} ms, {:.1f} times as long\n", eight,
             eight / turned);
}
