// Shipped cases, solved once more by a finite-element program that shares
// nothing with ours: not the mesh, not the elements, not the solver. It gets
// the outline of the liquid, and from our working point the
// resistance of each electrode. Every figure must agree within our bar and
// twice what the other's own last refinement changed.

#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include "io/case_file.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/peers/comparison.hpp"

#include <fmt/core.h>

namespace thinspot::tests {

namespace {

struct Shipped {
  std::string name;
  std::vector<std::string> overrides = {};
};

const std::vector<Shipped> cases = {
    {"token_one_sheet"},
    {"token_one_sheet", {"cathode.polarization_resistance=0 ohm cm2"}},
    {"bracket_inside_corner"},
    {"channel_deep_recess"},
    {"tube_bore"},
    {"token_with_clip"},
    {"strip_shield_thief"},
    {"spare_bar"},
    {"rod_in_tube"},
    {"rack_of_six"},
};

void print_head() {
  fmt::print("{:<38} {:>13} {:>13} {:>10} {:>9} {:>9}\n", "", "ours", "theirs",
             "difference", "our bar", "their err");
}

void print(const Compared& f) {
  fmt::print("  {:<36} {:>13.7g} {:>13.7g} {:>10.2g} {:>9.2g} {:>9.2g}{}\n",
             f.what, f.ours, f.theirs, f.ours - f.theirs, f.bar, f.their_error,
             f.agrees() ? "" : "  <-- no");
}

}  // namespace

TEST_CASE("second opinion") {
  fmt::print("Current densities in A/m2.\n");
  print_head();
  for (const Shipped& shipped : cases) {
    std::string title = shipped.name;
    for (const std::string& o : shipped.overrides) title += ", " + o;
    CAPTURE(title);
    const solver::Case c =
        io::read_case(shipped_case(shipped.name), shipped.overrides).content;
    const Comparison comparison = compare_with_peer(c);
    fmt::print("{}: {} unknowns, theirs {}\n", title, comparison.our_unknowns,
               comparison.their_unknowns);
    for (const Compared& f : comparison.figures) {
      print(f);
      CAPTURE(f.what, f.ours, f.theirs, f.bar, f.their_error);
      CHECK(f.agrees());
      CHECK(f.tells());
    }
  }
}

}  // namespace thinspot::tests

int main(int argc, char* argv[]) {
  if (!thinspot::tests::peer_is_here()) {
    fmt::print("no FreeFem++ here\n");
    return 77;
  }
  return Catch::Session().run(argc, argv);
}
