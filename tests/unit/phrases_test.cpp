#include "io/phrases.hpp"

#include <catch2/catch.hpp>

using namespace thinspot::io;

TEST_CASE("lists in a sentence", "[words]") {
  CHECK(with_or({}).empty());
  CHECK(with_or({"a"}) == "a");
  CHECK(with_or({"a", "b"}) == "a or b");
  CHECK(with_or({"a", "b", "c"}) == "a, b or c");
  CHECK(with_and({"a", "b"}) == "a and b");
  CHECK(with_and({"a", "b", "c"}) == "a, b and c");
}

TEST_CASE("a sentence begins with a capital", "[words]") {
  CHECK(capital("copper on brass") == "Copper on brass");
  CHECK(capital("2 of them") == "2 of them");
  CHECK(capital("Zinc") == "Zinc");
  CHECK(capital("\u00e4rger") == "\u00e4rger");
  CHECK(capital("").empty());
}
