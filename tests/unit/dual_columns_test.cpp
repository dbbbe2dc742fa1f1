#include "solver/dual_columns.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Core>

using namespace thinspot;
using Eigen::MatrixXd;

TEST_CASE("duals' columns multiply as their matrix does") {
  // Three fields that many goals have, four of one goal or none.
  MatrixXd duals = MatrixXd::Zero(7, 5);
  duals.topRows(3).setRandom();
  duals(3, 4) = 2;
  duals(4, 0) = -1;
  duals(6, 4) = 0.5;
  const solver::FieldRows rows = MatrixXd::Random(9, 7);
  const auto check = [&](const MatrixXd& of) {
    const solver::DualColumns columns(of);
    // Sums of at most seven products of numbers below 2.
    CHECK((columns.times(rows) - rows * of).norm() < 1e-14);
    CHECK(columns.all() == of);
  };
  check(duals);
  duals(6, 1) = 1;  // the last field is in two goals
  check(duals);
  check(MatrixXd::Identity(7, 7));
  check(MatrixXd::Zero(7, 5));
}
