#include "solver/sparse_response.hpp"

#include "mesh_samples.hpp"
#include "solver/condense.hpp"
#include "solver/elimination_order.hpp"
#include "solver/response.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Core>

#include <algorithm>
#include <numeric>

using namespace thinspot;
using Eigen::Index;
using Eigen::MatrixXd;
using solver::LocalLaws;

namespace {

/// One sample, its electrodes, and one volt on each of them.
struct Asked {
  explicit Asked(const tests::Meshed& sample, double resistance)
      : electrodes(solver::find_electrodes(sample.mesh, sample.section)),
        stiffness(solver::assemble_stiffness(sample.mesh)),
        laws(std::vector<double>(electrodes.each.size(), resistance)) {
    const auto rows = static_cast<Index>(electrodes.nodes.mesh_node.size());
    loads = solver::unit_loads(electrodes, rows, laws);
    held = solver::held_shares(electrodes, rows, laws);
  }

  solver::Electrodes electrodes;
  solver::SparseMatrix stiffness;
  LocalLaws laws;
  MatrixXd loads, held;
};

constexpr double kConductivity = 5;

solver::BoundaryAnswer ask(const solver::SparseResponse& response,
                           const Asked& a) {
  return response.solve(a.electrodes, kConductivity, a.laws, a.loads, a.held);
}

/// Rounding of direct solves: 1e-16 times the condition, 1e6 at most here.
constexpr double kRounding = 1e-10;

}  // namespace

TEST_CASE("every node comes once in an order of elimination") {
  for (const tests::Meshed& sample : tests::meshed_samples()) {
    CAPTURE(sample.name);
    const auto stiffness = solver::assemble_stiffness(sample.mesh);
    const auto n = static_cast<std::size_t>(stiffness.rows());
    std::vector<bool> last(n, false);
    for (std::size_t k = 0; k < n; k += 7) last[k] = true;
    for (const auto& order : {solver::elimination_order(stiffness),
                              solver::elimination_order(stiffness, last)}) {
      std::vector<int> sorted = order, all(n);
      std::sort(sorted.begin(), sorted.end());
      std::iota(all.begin(), all.end(), 0);
      CHECK(sorted == all);
    }
    const auto order = solver::elimination_order(stiffness, last);
    CHECK(std::is_sorted(order.begin(), order.end(), [&](int a, int b) {
      return !last[static_cast<std::size_t>(a)] &&
             last[static_cast<std::size_t>(b)];
    }));
  }
}

TEST_CASE("a sparse factor answers as the condensed operator does") {
  for (const tests::Meshed& sample : tests::meshed_samples())
    for (double resistance : {0.0, 1e-3, 1.0}) {
      CAPTURE(sample.name, resistance);
      const Asked a(sample, resistance);
      const solver::SparseResponse sparse(a.stiffness);
      const solver::BoundaryAnswer found = ask(sparse, a);
      CHECK(found.relative_residual < 1e-12);
      const solver::Condensed condensed =
          solver::condense(a.stiffness, a.electrodes.nodes.row);
      const solver::Response dense(a.electrodes, condensed.on_electrodes);
      const solver::BoundaryAnswer expected =
          dense.solve(kConductivity, a.laws, a.loads, a.held);
      CHECK((found.potential - expected.potential).norm() <
            kRounding * expected.potential.norm());
      CHECK((found.reaction - expected.reaction).norm() <=
            kRounding * a.stiffness.norm());
      const MatrixXd inside = condensed.interior.extend(expected.potential);
      // At hand the first time, solved for the second.
      for (int time : {1, 2}) {
        CAPTURE(time);
        const solver::Inside all =
            sparse.everywhere(a.electrodes, found.potential);
        CHECK(all.relative_residual < 1e-12);
        CHECK((all.potential - inside).norm() < kRounding * inside.norm());
      }
    }
}

TEST_CASE("an order of elimination serves other numbers too") {
  const tests::Meshed sample = tests::meshed_plates();
  const Asked a(sample, 1e-3);
  const solver::SparseResponse first(a.stiffness),
      again(3 * a.stiffness, first.order());
  CHECK(again.order() == first.order());
  const solver::BoundaryAnswer found =
      again.solve(a.electrodes, kConductivity / 3, a.laws, a.loads, a.held);
  const solver::BoundaryAnswer expected = ask(first, a);
  CHECK((found.potential - expected.potential).norm() <
        kRounding * expected.potential.norm());
}

TEST_CASE("what is at hand is not taken for other values or other laws") {
  const tests::Meshed sample = tests::meshed_plates();
  const Asked first(sample, 1e-3), second(sample, 1);
  const solver::SparseResponse response(first.stiffness);
  const solver::Condensed condensed =
      solver::condense(first.stiffness, first.electrodes.nodes.row);
  const auto check = [&](const MatrixXd& boundary) {
    const MatrixXd inside = condensed.interior.extend(boundary);
    CHECK((response.everywhere(first.electrodes, boundary).potential - inside)
              .norm() < kRounding * inside.norm());
  };
  const MatrixXd a = ask(response, first).potential;
  check(2 * a);
  const MatrixXd b = ask(response, second).potential;
  check(a);
  check(b);
  MatrixXd both(a.rows(), 2 * a.cols());
  ask(response, second);
  ask(response, second);
  both << b, b;
  check(both);
  ask(response, first);
  ask(response, second);
  both << a, b;
  check(both);
}
