#include "solver/multigrid.hpp"

#include "mesh/errors.hpp"
#include "mesh/refine.hpp"
#include "mesh_samples.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/laplace.hpp"
#include "solver/mesh_system.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Dense>

#include <cmath>
#include <memory>

using namespace thinspot;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using solver::Lanes;
using solver::LaneVector;

namespace {

/// Rounding of sums of at most some hundred terms of size 1.
constexpr double kSame = 1e-13;

LaneVector lanes_of(const MatrixXd& two) {
  LaneVector lanes;
  for (Index k = 0; k < two.rows(); ++k)
    lanes.push_back(two.row(k).transpose().array());
  return lanes;
}

MatrixXd matrix_of(const LaneVector& lanes) {
  MatrixXd two(static_cast<Index>(lanes.size()), solver::kLanes);
  for (Index k = 0; k < two.rows(); ++k)
    two.row(k) = lanes[static_cast<std::size_t>(k)].matrix().transpose();
  return two;
}

/// A symmetric matrix with a few entries a row, and the same in rows, the first
/// of which are its own.
struct Both {
  MatrixXd dense;
  solver::BorderedRows rows;
};

Both some_matrix(int n, int border) {
  Both both;
  both.dense = MatrixXd::Zero(n, n);
  for (int i = 0; i < n; ++i)
    for (int j : {i, (7 * i + 3) % n, (i + 1) % n})
      both.dense(i, j) = both.dense(j, i) =
          i == j ? 9 + 0.1 * i : 0.3 + 0.01 * (i + j);
  solver::SymmetricRows all(n, [&](auto use) {
    for (int i = 0; i < n; ++i)
      for (int j = 0; j < n; ++j)
        if (i != j && both.dense(i, j) != 0) use(i, j);
  });
  for (int i = 0; i < n; ++i)
    for (int j = 0; j <= i; ++j)
      if (both.dense(i, j) != 0) all.add(i, j, both.dense(i, j));
  both.rows.body = std::make_shared<const solver::SymmetricRows>(all);
  both.rows.border = all.first(border);
  for (int i = 0; i < border; ++i) {
    both.rows.border.add(i, i, 1.0);
    both.dense(i, i) += 1;
  }
  return both;
}

struct Meshed {
  mesh::Mesh mesh;
  solver::Electrodes electrodes;
  std::shared_ptr<const solver::MeshRows> rows;
};

/// Every triangle made into four, so many times.
Meshed finer(const tests::Meshed& sample, int times) {
  mesh::Mesh mesh = sample.mesh;
  for (int k = 0; k < times; ++k) mesh = mesh::refined(mesh, sample.section);
  auto electrodes = solver::find_electrodes(mesh, sample.section);
  auto rows = std::make_shared<const solver::MeshRows>(
      solver::mesh_rows(mesh, electrodes.nodes.mesh_node));
  return {std::move(mesh), std::move(electrodes), std::move(rows)};
}

solver::MeshSystem system_of(const Meshed& m, const solver::LocalLaws& laws) {
  solver::MeshSystem::Entries entries;
  solver::for_each_law_entry(m.electrodes, laws, [&](int j, int k, double v) {
    entries.emplace_back(j, k, v);
  });
  return {m.rows, entries, solver::find_fixed(m.electrodes, laws).held};
}

/// One volt behind each law in turn.
struct Asked {
  MatrixXd loads, values;
};
Asked unit_drives(const Meshed& m, const solver::LocalLaws& laws) {
  const auto rows = static_cast<Index>(m.electrodes.nodes.mesh_node.size());
  return {solver::unit_loads(m.electrodes, rows, laws),
          solver::held_shares(m.electrodes, rows, laws)};
}

/// All electrodes behind one law [m], at conductivity 1.
solver::LocalLaws alike(const Meshed& m, double resistance) {
  return {std::vector<double>(m.electrodes.each.size(), resistance)};
}

}  // namespace

TEST_CASE("symmetric rows are the matrix") {
  const int n = 40, border = 7;
  const Both a = some_matrix(n, border);
  CHECK(MatrixXd(solver::both_triangles(a.rows)) == a.dense);
  CHECK(solver::frobenius_norm(a.rows) == Approx(a.dense.norm()));

  const MatrixXd x = MatrixXd::Random(n, 2);
  LaneVector y(n);
  const Lanes dot = multiply(a.rows, lanes_of(x), y);
  CHECK((matrix_of(y) - a.dense * x).norm() < kSame * a.dense.norm());
  for (Index lane = 0; lane < 2; ++lane)
    CHECK(dot(lane) == Approx(x.col(lane).dot(a.dense * x.col(lane))));

  const solver::FullRows full = solver::both_triangles(a.rows);
  const solver::BorderedRows again{
      {},
      std::make_shared<const solver::SymmetricRows>(
          solver::upper_triangle(full))};
  CHECK(MatrixXd(solver::both_triangles(again)) == a.dense);
  solver::SymmetricRows rows = solver::upper_triangle(full);
  CHECK_THROWS_AS(rows.add(0, n / 2 + 1, 1), std::logic_error);
}

TEST_CASE("sweeps are those of Gauss and Seidel") {
  const int n = 40;
  const Both a = some_matrix(n, 7);
  const MatrixXd b = MatrixXd::Random(n, 2);
  LaneVector x(n), rest(n);
  sweep_forward(a.rows, lanes_of(b), x, rest);
  const MatrixXd forward = a.dense.triangularView<Eigen::Lower>().solve(b);
  CHECK((matrix_of(x) - forward).norm() < kSame * b.norm());
  CHECK((matrix_of(rest) - (b - a.dense * forward)).norm() < kSame * b.norm());

  const MatrixXd from = MatrixXd::Random(n, 2);
  x = lanes_of(from);
  sweep_back(a.rows, lanes_of(b), x, rest);
  const MatrixXd right =
      b - MatrixXd(a.dense.triangularView<Eigen::StrictlyLower>()) * from;
  const MatrixXd back = a.dense.triangularView<Eigen::Upper>().solve(right);
  CHECK((matrix_of(x) - back).norm() < kSame * b.norm());
}

TEST_CASE("cleared rows are those of the identity") {
  const int n = 40, border = 7;
  Both a = some_matrix(n, border);
  std::vector<bool> held(border, false);
  for (int k : {1, 4, 5}) {
    held[static_cast<std::size_t>(k)] = true;
    a.dense.row(k).setZero();
    a.dense.col(k).setZero();
    a.dense(k, k) = 1;
  }
  a.rows.border.clear(held);
  CHECK(MatrixXd(solver::both_triangles(a.rows)) == a.dense);
}

TEST_CASE("a mesh's rows are its stiffness, and corners see their part of it") {
  for (const tests::Meshed& sample : tests::meshed_samples()) {
    CAPTURE(sample.name);
    const Meshed m = finer(sample, 0);
    const solver::MeshRows& rows = *m.rows;
    const MatrixXd all(solver::assemble_stiffness(m.mesh));
    const solver::BorderedRows a{{}, rows.stiffness};
    const MatrixXd found(solver::both_triangles(a));
    CHECK((found - all(rows.node, rows.node)).norm() < kSame * all.norm());
    for (std::size_t k = 0; k < m.electrodes.nodes.mesh_node.size(); ++k)
      CHECK(rows.node[k] == m.electrodes.nodes.mesh_node[k]);

    MatrixXd shapes = MatrixXd::Zero(found.rows(), rows.corners.count);
    for (std::size_t k = 0; k < rows.corners.of.size(); ++k)
      for (int corner : rows.corners.of[k])
        shapes(static_cast<Index>(k), corner) += 0.5;
    const solver::BorderedRows coarse{
        {},
        std::make_shared<const solver::SymmetricRows>(
            solver::on_corners(rows.corners, a))};
    CHECK((MatrixXd(solver::both_triangles(coarse)) -
           shapes.transpose() * found * shapes)
              .norm() < kSame * all.norm());

    const MatrixXd x = MatrixXd::Random(rows.corners.count, 2),
                   b = MatrixXd::Random(found.rows(), 2);
    LaneVector up(rows.node.size(), Lanes::Zero()),
        down(static_cast<std::size_t>(rows.corners.count));
    add_from_corners(rows.corners, lanes_of(x), up);
    CHECK((matrix_of(up) - shapes * x).norm() < kSame * x.norm());
    onto_corners(rows.corners, lanes_of(b), down);
    CHECK((matrix_of(down) - shapes.transpose() * b).norm() < kSame * b.norm());
  }
}

TEST_CASE("groups of corners leave constants as they are") {
  for (const tests::Meshed& sample : tests::meshed_samples()) {
    CAPTURE(sample.name);
    const Meshed m = finer(sample, 1);
    const solver::BorderedRows linear{
        {},
        std::make_shared<const solver::SymmetricRows>(
            solver::on_corners(m.rows->corners, {{}, m.rows->stiffness}))};
    const solver::FullRows a = solver::both_triangles(linear);
    const solver::FullRows p = solver::smoothed_groups(a);
    CHECK(p.cols() < a.cols() / 3);
    const VectorXd ones = p * VectorXd::Ones(p.cols());
    CHECK((ones.array() - 1).abs().maxCoeff() < kSame);
  }
}

// The smoother there is the transpose of that back, and coarser systems are
// what the finer is on their fields: so the cycle is symmetric, and takes from
// any error a part between nothing and all of it: eigenvalues of cycle times
// matrix lie above 0 and not above 1 (W. Hackbusch, Multi-Grid Methods and
// Applications, 1985, chapter 7; from memory). What lies within them is the
// Rayleigh quotient of any vector.
TEST_CASE("the cycle is symmetric and positive") {
  for (const tests::Meshed& sample : tests::meshed_samples())
    for (double resistance : {0.0, 1e-3, 1e3}) {
      CAPTURE(sample.name, resistance);
      const Meshed m = finer(sample, 2);
      const solver::LocalLaws laws = alike(m, resistance);
      const std::vector<bool> held =
          solver::find_fixed(m.electrodes, laws).held;
      solver::BorderedRows a{
          m.rows->stiffness->first(static_cast<int>(held.size())),
          m.rows->stiffness};
      solver::for_each_law_entry(m.electrodes, laws,
                                 [&](int j, int k, double v) {
                                   if (j <= k) a.border.add(j, k, v);
                                 });
      a.border.clear(held);
      const solver::Multigrid cycle(a, m.rows->corners, held);
      solver::Multigrid::Room room = cycle.room();
      const std::size_t n = m.rows->node.size();
      LaneVector x = lanes_of(MatrixXd::Random(static_cast<Index>(n), 2));
      for (std::size_t k = 0; k < held.size(); ++k)
        if (held[k]) x[k].setZero();
      LaneVector ax(n), bx(n), bax(n), rest(n);
      const Lanes energy = multiply(a, x, ax);
      cycle.cycle(x, bx, rest, room);
      const MatrixXd in = matrix_of(x), out = matrix_of(bx);
      CHECK(in.col(0).dot(out.col(1)) ==
            Approx(in.col(1).dot(out.col(0))).margin(kSame * in.norm()));
      const Lanes taken = cycle.cycle(ax, bax, rest, room);
      CHECK((taken > 0).all());
      CHECK((taken <= energy * (1 + kSame)).all());
      // What is held is left alone.
      for (std::size_t k = 0; k < held.size(); ++k)
        if (held[k]) CHECK((bax[k] == 0).all());
    }
}

// Where eigenvalues lie between 1/5 and 1, conjugate gradients take 2 q^k of
// the error, q = (sqrt 5 - 1) / (sqrt 5 + 1): 1e-10 in 25 cycles.
TEST_CASE("as many cycles on large meshes as on small ones") {
  for (const tests::Meshed& sample :
       {tests::meshed_coin(), tests::meshed_turned_coin()})
    for (double resistance : {0.0, 1e-2}) {
      for (int times : {1, 2, 3}) {
        const Meshed m = finer(sample, times);
        CAPTURE(sample.name, resistance, m.mesh.nodes.cols());
        const solver::LocalLaws laws = alike(m, resistance);
        const Asked asked = unit_drives(m, laws);
        const auto answer = system_of(m, laws).solve(asked.loads, asked.values);
        CHECK(answer.iterated);
        CHECK(answer.cycles <= 25);
      }
    }
}

TEST_CASE("what a field becomes does not depend on what is solved beside it") {
  const Meshed m = finer(tests::meshed_coin(), 1);
  const solver::LocalLaws laws = alike(m, 1e-3);
  const Asked one = unit_drives(m, laws);
  const Index rows = one.loads.rows();
  Asked asked{MatrixXd::Random(rows, 5), MatrixXd::Zero(rows, 5)};
  asked.loads.leftCols(one.loads.cols()) = one.loads;
  const solver::MeshSystem system = system_of(m, laws);
  const auto together = system.solve(asked.loads, asked.values, true);
  for (Index k = 0; k < 5; ++k) {
    const auto alone =
        system.solve(asked.loads.col(k), asked.values.col(k), true);
    CHECK(alone.first == together.first.col(k));
    CHECK(alone.everywhere == together.everywhere.col(k));
  }
}

TEST_CASE("the factor answers what the iteration does") {
  const Meshed m = finer(tests::meshed_turned_coin(), 1);
  for (double resistance : {0.0, 1e-3}) {
    const solver::LocalLaws laws = alike(m, resistance);
    const Asked asked = unit_drives(m, laws);
    const solver::MeshSystem system = system_of(m, laws);
    const auto found = system.solve(asked.loads, asked.values, true);
    const auto exact = system.factored(asked.loads, asked.values, true);
    CHECK(found.iterated);
    CHECK_FALSE(exact.iterated);
    // 1e-10 in energy, where one volt's is of the size of 1.
    CHECK((found.everywhere - exact.everywhere).cwiseAbs().maxCoeff() < 1e-9);
    CHECK((found.reaction - exact.reaction).norm() <=
          1e-9 * exact.reaction.norm());
  }
}

TEST_CASE("what does not settle is factored, and refused if that fails") {
  const Meshed m = finer(tests::meshed_plates(), 0);
  const auto rows = m.electrodes.nodes.mesh_node.size();
  // A law that gives back more than the liquid takes: not definite.
  solver::MeshSystem::Entries entries;
  for (std::size_t k = 0; k < rows; ++k)
    entries.emplace_back(static_cast<int>(k), static_cast<int>(k), -100.0);
  const solver::MeshSystem unsound(m.rows, entries,
                                   std::vector<bool>(rows, false));
  const MatrixXd load = MatrixXd::Random(static_cast<Index>(rows), 1);
  CHECK_THROWS_AS(unsound.solve(load, MatrixXd::Zero(load.rows(), 1)),
                  NoResultError);
}
