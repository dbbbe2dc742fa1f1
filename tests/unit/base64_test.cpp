// Matrices as text for the page.

#include "io/base64.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;

TEST_CASE("floats are packed little end first, in base 64") {
  // 1.0f is 00 00 80 3f, -2.0f 00 00 00 c0 (IEEE 754); base 64 by RFC 4648.
  Eigen::MatrixXd one(1, 1);
  one << 1;
  CHECK(io::packed(one) == "AACAPw==");
  Eigen::MatrixXd two(1, 2);
  two << 1, -2;
  CHECK(io::packed(two) == "AACAPwAAAMA=");
  Eigen::MatrixXd three(3, 1);
  three << 1, -2, 1;
  CHECK(io::packed(three) == "AACAPwAAAMAAAIA/");
  CHECK(io::packed(Eigen::MatrixXd(0, 3)).empty());
}

TEST_CASE("matrices are packed row by row, of symmetric ones the lower half") {
  Eigen::MatrixXd m(2, 2);
  m << 1, -2, -2, 1;
  Eigen::MatrixXd rows(1, 4), lower(1, 3);
  rows << 1, -2, -2, 1;
  lower << 1, -2, 1;
  CHECK(io::packed(m) == io::packed(rows));
  CHECK(io::packed_symmetric(m) == io::packed(lower));
}
