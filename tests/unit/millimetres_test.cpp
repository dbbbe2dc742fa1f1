#include "mesh/millimetres.hpp"

#include <catch2/catch.hpp>

using thinspot::mesh::in_mm;

TEST_CASE("lengths as a user reads them") {
  CHECK(in_mm(0.0024) == "2.4 mm");
  CHECK(in_mm(-0.06) == "-60 mm");
  CHECK(in_mm({0.0024, 0.06}) == "x 2.4 mm, y 60 mm");
}

TEST_CASE("what rounding left of a zero is told as one") {
  CHECK(in_mm(-7.806e-18) == "0 mm");
  CHECK(in_mm(0.1 + 0.2 - 0.3) == "0 mm");
  CHECK(in_mm(1e-9) == "1e-06 mm");  // a nanometre is none of that
}
