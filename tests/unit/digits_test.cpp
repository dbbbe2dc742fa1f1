#include "mesh/digits.hpp"

#include "solver/interval.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace thinspot;

TEST_CASE("numbers for people have two or three digits", "[words]") {
  CHECK(digits(5.7349) == "5.73");
  CHECK(digits(9.996) == "10");
  CHECK(digits(99.96) == "100");
  CHECK(digits(0.33) == "0.33");
  CHECK(digits(123456) == "123000");
  CHECK(digits(0) == "0");
  CHECK(digits(-0.02149, 2) == "-0.021");
}

TEST_CASE("zeros are kept where a row of values stands together", "[words]") {
  CHECK(full_digits(3.0, 2) == "3.0");
  CHECK(full_digits(9.96, 2) == "10");
  CHECK(full_digits(9.996, 3) == "10.0");
  CHECK(full_digits(9.994, 3) == "9.99");
  CHECK(full_digits(0.0401, 2) == "0.040");
  CHECK(at_places(-0.04, 1) == "0.0");
  CHECK(at_places(1234, -2) == "1200");
}

TEST_CASE("what is out of all measure has an exponent", "[words]") {
  CHECK(digits(2.5e-7) == "2.50e-07");
  CHECK(digits(1e-6) == "0.000001");
  CHECK(digits(999400) == "999000");
  CHECK(digits(999500) == "1.00e+06");
  CHECK(digits(-std::numeric_limits<double>::infinity()) == "-inf");
}

TEST_CASE("a value is worth the digits that its band leaves it", "[words]") {
  CHECK(solver::digits_worth(10, {9.9, 10.1}) == 3);
  CHECK(solver::digits_worth(10, {9, 11}) == 2);
  CHECK(solver::digits_worth(-10, {-11, -9}) == 2);
}
