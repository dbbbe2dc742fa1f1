// Several layers as words, columns, colours and step by step.
#include "solver/layers.hpp"
#include "io/layer_column.hpp"
#include "io/words.hpp"
#include "mesh/errors.hpp"
#include "solver/simulate.hpp"
#include "solver/step_view.hpp"
#include "tests/verification/bench_cases.hpp"
#include "viz/metal_look.hpp"
#include "viz/palette.hpp"

#include <catch2/catch.hpp>

#include <numbers>
#include <set>

using namespace thinspot;
using Catch::Matchers::StartsWith;
using solver::Case;
using solver::Result;

namespace {

Case copper() { return tests::token(); }

/// The token elsewhere, lying in its tank, flipped for its second half.
Case nickel() {
  Case c = tests::token();
  c.solution.metal = tests::nickel();
  c.section.tank = {mesh::Tank::Shape::box, 0.12, 0.12, 0.1};
  c.section.solids[0].at = {0.06, 0.06};
  c.section.solids[0].turn = std::numbers::pi / 2;
  c.steps = {{{600, 0}, {}}, {{600, 0}, {true, 0.3}}};
  return c;
}

std::string verdict_of(std::vector<Case> cases,
                       const std::vector<std::optional<double>>& wanted) {
  for (std::size_t k = 0; k < cases.size(); ++k)
    cases[k].target.thickness = wanted[k];
  return io::words_for(solver::simulate(cases)).verdict;
}

viz::Rgb read_hex(const std::string& colour) {
  const auto part = [&](std::size_t at) {
    return std::stoi(colour.substr(at, 2), nullptr, 16) / 255.0;
  };
  return {part(1), part(3), part(5)};
}

}  // namespace

TEST_CASE("the verdict on layers tells which targets are missed") {
  const std::vector<Case> both{copper(), nickel()}, twice{copper(), copper()};
  CHECK_THAT(verdict_of(both, {{}, {}}),
             StartsWith("No target thickness is set for any layer. All layers "
                        "together: "));
  CHECK_THAT(verdict_of(both, {1e-6, 1e-6}),
             StartsWith("Target met in every layer. "));
  CHECK_THAT(verdict_of(both, {1e-6, {}}),
             StartsWith("Target met in 1 of 2 layers; the other has none. "));
  CHECK_THAT(verdict_of(both, {1e-6, 1e-4}),
             StartsWith("Target not met in the nickel layer. "));
  CHECK_THAT(
      verdict_of(twice, {1e-4, 1e-4}),
      StartsWith("Target not met in the layers copper 1 and copper 2. "));
}

TEST_CASE("one case among several is that case") {
  const Result one = solver::simulate(copper());
  const Result same = solver::simulate(std::vector<Case>{copper()});
  CHECK(same.layers.empty());
  CHECK(same.parts[0].thickness.value.min == one.parts[0].thickness.value.min);
  CHECK(io::words_for(same).layers.empty());
}

TEST_CASE("what is wrong with a layer says which one it is") {
  Case bad = nickel();
  bad.section.solids[1].at = bad.section.solids[0].at;
  try {
    solver::simulate(std::vector<Case>{copper(), bad});
    FAIL("it was taken");
  } catch (const solver::LayerError& error) {
    CHECK(error.layer() == 1);
    CHECK_FALSE(error.problems().empty());
  }
}

TEST_CASE("after each step the part is shown in the tank of its layer") {
  const Result r = solver::simulate(std::vector<Case>{copper(), nickel()});
  REQUIRE(r.steps.size() == 3);
  for (std::size_t k = 0; k < 3; ++k) {
    CAPTURE(k);
    const Result view = solver::after_step(r, k);
    CHECK(view.section.tank.width == (k == 0 ? 0.09 : 0.12));
    const solver::PartResult& part = view.parts[0];
    const mesh::Outline& outline = view.section.solids[part.solid].outline;
    double out = 0, off = 0;
    for (std::size_t n = 0; n < part.surface.size(); ++n) {
      const solver::SurfacePoint& p = part.surface[n];
      off = std::max(off, mesh::nearest(outline, p.at).distance);
      // A hair outside along the normal is outside.
      if (mesh::contains(outline, p.at + 1e-6 * p.normal)) out = 1;
      double sum = 0;
      for (const solver::LayerResult& layer : view.layers)
        sum += layer.thickness[0](static_cast<Eigen::Index>(n));
      CHECK(sum == Approx(p.thickness).epsilon(1e-12));
      if (k == 0)
        CHECK(view.layers[1].thickness[0](static_cast<Eigen::Index>(n)) == 0);
    }
    CHECK(off < 1e-9);
    CHECK(out == 0);
  }
  CHECK(solver::step_in_words(r.steps[0]) == "copper, as drawn");
  CHECK_THAT(solver::step_in_words(r.steps[2]),
             StartsWith("nickel, flipped, turned by "));
}

TEST_CASE("columns of layers have names that any reader takes") {
  Result r;
  r.layers.resize(3);
  r.layers[0].metal = "copper(I)";
  r.layers[1].metal = "Zinn, \"blank\"";
  CHECK(io::layer_column(r, 0) == "layer_1_copperI_um");
  CHECK(io::layer_column(r, 1) == "layer_2_Zinnblank_um");
  CHECK(io::layer_column(r, 2) == "layer_3_um");
}

TEST_CASE("metals are told apart, by edges that show on paper") {
  std::set<std::string> fills;
  for (const std::string metal :
       {"copper", "nickel", "zinc", "tin", "silver", "gold", "iron"}) {
    CAPTURE(metal);
    const viz::MetalLook look = viz::look_of_metal(metal, 0);
    fills.insert(look.fill);
    // WCAG 2.1, 1.4.11: 3 to 1 for what a picture needs.
    CHECK(1.05 / (viz::luminance(read_hex(look.edge)) + 0.05) > 3);
  }
  CHECK(fills.size() == 7);
  CHECK(viz::look_of_metal("copper(I)", 1).fill ==
        viz::look_of_metal("copper", 0).fill);
  CHECK(viz::look_of_metal("rhodium", 0).fill !=
        viz::look_of_metal("rhodium", 1).fill);
}
