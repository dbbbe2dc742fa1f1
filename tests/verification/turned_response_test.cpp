// The condensed responses against the whole system solved at once, by another
// factorization: rounding alone lies between them, of 1e-16 times the condition
// of the stiffness on these meshes, 1e5 at most.
#include "bench_cases.hpp"
#include "mesh/refine.hpp"
#include "mesh/turning_disc.hpp"
#include "solver/laplace.hpp"
#include "solver/turnable.hpp"

#include <catch2/catch.hpp>

#include <Eigen/SparseCholesky>

#include <cmath>
#include <map>
#include <utility>

using namespace thinspot;
using Eigen::Index;
using Eigen::MatrixXd;
using solver::SparseMatrix;

namespace {

constexpr double kSame = 1e-10;

/// Bases in which the nodal unknowns are given: one column an unknown.
struct Basis {
  SparseMatrix shapes;
};

Basis nodal(const mesh::Mesh& mesh) {
  SparseMatrix one(mesh.nodes.cols(), mesh.nodes.cols());
  one.setIdentity();
  return {one};
}

/// Nodes off the circles by themselves, those on them by waves of where they
/// are in the tank, whichever side they are of.
Basis with_waves(const mesh::Mesh& mesh, const mesh::Section& section,
                 int waves) {
  std::map<int, int> circle;  // node -> disc
  for (const mesh::BoundaryEdge& e : mesh.boundary)
    if (e.owner == mesh::kDisc)
      for (int node : e.nodes) circle[node] = e.loop;
  std::vector<Eigen::Triplet<double>> entries;
  int next = 0;
  for (int k = 0; k < mesh.nodes.cols(); ++k)
    if (!circle.contains(k)) entries.emplace_back(k, next++, 1.0);
  for (const auto& [node, disc] : circle) {
    const mesh::Point p = mesh.nodes.col(node) -
                          section.discs[static_cast<std::size_t>(disc)].centre;
    const double a = std::atan2(p.y(), p.x());
    const int first = next + disc * (2 * waves + 1);
    entries.emplace_back(node, first, 1.0);
    for (int n = 1; n <= waves; ++n) {
      entries.emplace_back(node, first + 2 * n - 1, std::cos(n * a));
      entries.emplace_back(node, first + 2 * n, std::sin(n * a));
    }
  }
  const int discs = static_cast<int>(section.discs.size());
  SparseMatrix shapes(mesh.nodes.cols(), next + discs * (2 * waves + 1));
  shapes.setFromTriplets(entries.begin(), entries.end());
  return {shapes};
}

/// Potentials at the electrode nodes for one volt behind each law, all of them
/// with a resistance.
MatrixXd by_whole_system(const solver::Model& model, const Basis& basis,
                         double conductivity,
                         const std::vector<double>& resistance) {
  const solver::Electrodes& electrodes = model.response.electrodes();
  const Index n = model.mesh.nodes.cols();
  std::vector<Eigen::Triplet<double>> entries;
  MatrixXd loads =
      MatrixXd::Zero(n, static_cast<Index>(electrodes.each.size()));
  const auto node = [&](const solver::Electrode& e, Index k) {
    return electrodes.nodes.mesh_node[static_cast<std::size_t>(
        e.rows[static_cast<std::size_t>(k)])];
  };
  for (std::size_t k = 0; k < electrodes.each.size(); ++k) {
    const solver::Electrode& e = electrodes.each[k];
    for (Index j = 0; j < e.mass.outerSize(); ++j) {
      for (SparseMatrix::InnerIterator it(e.mass, j); it; ++it)
        entries.emplace_back(node(e, it.row()), node(e, it.col()),
                             it.value() / resistance[k]);
      loads(node(e, j), static_cast<Index>(k)) = e.weight(j) / resistance[k];
    }
  }
  SparseMatrix system(n, n);
  system.setFromTriplets(entries.begin(), entries.end());
  system += conductivity * solver::assemble_stiffness(model.mesh);
  const SparseMatrix reduced = basis.shapes.transpose() * system * basis.shapes;
  const Eigen::SimplicialLDLT<SparseMatrix> factor(reduced);
  REQUIRE(factor.info() == Eigen::Success);
  const MatrixXd x = factor.solve(basis.shapes.transpose() * loads);
  return (basis.shapes * x)(electrodes.nodes.mesh_node, Eigen::all);
}

void check_same(const solver::Model& model, const Basis& basis) {
  const std::size_t count = model.response.count();
  for (double conductivity : {2.0, 50.0})
    for (double resistance : {1e-5, 2.6e-4, 1e-2}) {
      std::vector<double> each(count, resistance);
      each.back() = 3 * resistance;
      const MatrixXd whole = by_whole_system(model, basis, conductivity, each);
      const MatrixXd condensed =
          model.response.answer(conductivity, each).potential;
      CAPTURE(conductivity, resistance);
      CHECK((whole - condensed).cwiseAbs().maxCoeff() < kSame);
    }
}

}  // namespace

TEST_CASE("the response is the whole system", "[property]") {
  const solver::Model model = solver::build_model(tests::token());
  check_same(model, nodal(model.mesh));
}

// Beyond 1,500 nodes on metal answers come from a sparse factor.
TEST_CASE("the response of a large section is the whole system", "[property]") {
  const solver::Case c = tests::token();
  solver::Model model = solver::build_model(c);
  while (model.response.condensed().size() > 0) {
    mesh::Mesh finer = mesh::refined(model.mesh, model.section);
    model = solver::build_model(c, std::move(model.section), std::move(finer));
  }
  CHECK(model.response.electrodes().nodes.mesh_node.size() > 1500);
  const std::vector<double> resistance{2.6e-4, 1e-4};
  const MatrixXd whole =
      by_whole_system(model, nodal(model.mesh), 20, resistance);
  // Asked for again and with others in between: the factor that is kept is the
  // one for these laws.
  for (double other : {1e-3, 2.6e-4}) {
    model.response.answer(20, {other, 1e-4});
    const MatrixXd found = model.response.answer(20, resistance).potential;
    CHECK((whole - found).cwiseAbs().maxCoeff() < kSame);
  }
}

TEST_CASE("the response of a turned part is the whole system of waves",
          "[property]") {
  solver::Case c = tests::token();
  const auto turnable = solver::build_turnable(c, 7);
  REQUIRE(turnable);
  for (double turn : {0.0, 0.7, -2.4}) {
    CAPTURE(turn);
    c.section.motion.turn = turn;
    const solver::Model model = solver::turned_model(*turnable, c);
    const Basis basis = with_waves(model.mesh, model.section, 7);
    check_same(model, basis);
    // And inside the liquid: the field is harmonic in the same basis.
    const MatrixXd boundary =
        model.response.answer(20, {2.6e-4, 1e-4}).potential;
    const MatrixXd field = model.response.everywhere(boundary);
    const MatrixXd residual = basis.shapes.transpose() *
                              (solver::assemble_stiffness(model.mesh) * field);
    double most = 0;
    const auto& row = model.response.electrodes().nodes.row;
    for (Index u = 0; u < residual.rows(); ++u) {
      bool on_metal = false;
      for (SparseMatrix::InnerIterator it(basis.shapes, u); it; ++it)
        on_metal = on_metal || row[static_cast<std::size_t>(it.row())] >= 0;
      if (!on_metal)
        most = std::max(most, residual.row(u).cwiseAbs().maxCoeff());
    }
    CHECK(most < kSame);
  }
}
