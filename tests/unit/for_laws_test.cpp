#include "solver/for_laws.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using solver::LocalLaws;

namespace {

/// Counts what it makes.
struct Maker {
  int made = 0;
  int of(solver::ForLaws<int>& kept, double conductivity, const LocalLaws& laws,
         std::size_t most) {
    return kept.get(
        conductivity, laws, [&] { return std::make_shared<int>(++made); },
        most);
  }
};

}  // namespace

TEST_CASE("what is asked for again is not made again") {
  solver::ForLaws<int> kept;
  Maker maker;
  const LocalLaws a{1e-4, 0}, b{2e-4, 0};
  CHECK(maker.of(kept, 5, a, 2) == 1);
  CHECK(maker.of(kept, 5, b, 2) == 2);
  CHECK(maker.of(kept, 5, a, 2) == 1);
  // Laws alike at another conductivity are another system.
  CHECK(maker.of(kept, 6, a, 2) == 3);
  // Which took the place of b, as a had been asked for since.
  CHECK(maker.of(kept, 5, a, 2) == 1);
  CHECK(maker.of(kept, 5, b, 2) == 4);
}

TEST_CASE("one at a time is gone before the next is made") {
  solver::ForLaws<int> kept;
  std::weak_ptr<const int> first;
  const auto make = [&](int value) {
    return [&first, value] {
      CHECK(first.expired());
      auto made = std::make_shared<const int>(value);
      first = made;
      return made;
    };
  };
  CHECK(kept.get(5, {1e-4}, make(1)) == 1);
  CHECK(kept.get(5, {1e-4}, make(2)) == 1);
  CHECK(kept.get(5, {2e-4}, make(3)) == 3);
}

TEST_CASE("fewer are kept where fewer are allowed") {
  solver::ForLaws<int> kept;
  Maker maker;
  for (const double conductivity : {1.0, 2.0, 3.0})
    maker.of(kept, conductivity, {0}, 4);
  CHECK(maker.of(kept, 4, {0}, 1) == 4);
  CHECK(maker.of(kept, 3, {0}, 4) == 5);
}
