#include "solver/condense.hpp"

#include "mesh_samples.hpp"
#include "solver/electrodes.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Cholesky>

using namespace thinspot;
using Eigen::MatrixXd;

namespace {

struct Blocks {
  std::vector<int> inside, boundary;  ///< mesh nodes, the latter in boundary
                                      ///< rows
  MatrixXd all;
};

Blocks blocks(const mesh::Mesh& mesh, const solver::Electrodes& electrodes) {
  Blocks b{{},
           electrodes.nodes.mesh_node,
           MatrixXd(solver::assemble_stiffness(mesh))};
  for (int k = 0; k < static_cast<int>(mesh.nodes.cols()); ++k)
    if (electrodes.nodes.row[static_cast<std::size_t>(k)] < 0)
      b.inside.push_back(k);
  return b;
}

}  // namespace

// The same by dense matrices: S = A_bb - A_bi A_ii^-1 A_ib, whose solve keeps
// 1e-16 times the condition of A_ii, 1e4 at most on these meshes.
TEST_CASE("the condensed stiffness is the Schur complement") {
  for (const tests::Meshed& sample : tests::meshed_samples()) {
    CAPTURE(sample.name);
    const auto electrodes =
        solver::find_electrodes(sample.mesh, sample.section);
    const solver::Condensed condensed = solver::condense(
        solver::assemble_stiffness(sample.mesh), electrodes.nodes.row);
    const Blocks b = blocks(sample.mesh, electrodes);
    const Eigen::LLT<MatrixXd> inside(b.all(b.inside, b.inside));
    const MatrixXd out = inside.solve(b.all(b.inside, b.boundary));
    const MatrixXd schur =
        b.all(b.boundary, b.boundary) - b.all(b.boundary, b.inside) * out;
    CHECK((condensed.on_electrodes - schur).norm() < 1e-12 * schur.norm());
    CHECK(condensed.on_electrodes == condensed.on_electrodes.transpose());

    const MatrixXd on = MatrixXd::Random(schur.rows(), 3);
    const MatrixXd everywhere = condensed.interior.extend(on);
    CHECK(everywhere(b.boundary, Eigen::all) == on);
    CHECK((everywhere(b.inside, Eigen::all) + out * on).norm() <
          1e-12 * on.norm() * double(schur.rows()));
  }
}

TEST_CASE("a piece of liquid without an electrode cannot be condensed") {
  const tests::Meshed sample = tests::meshed_plates();
  auto electrodes = solver::find_electrodes(sample.mesh, sample.section);
  electrodes.nodes.mesh_node.clear();
  electrodes.nodes.row.assign(electrodes.nodes.row.size(), -1);
  CHECK_THROWS_WITH(solver::condense(solver::assemble_stiffness(sample.mesh),
                                     electrodes.nodes.row),
                    Catch::Matchers::Contains("not definite"));
}
