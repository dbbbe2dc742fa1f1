#include "solver/progress.hpp"
#include "io/case_file.hpp"
#include "solver/simulate.hpp"
#include "solver/stopwatch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

using namespace thinspot;
using solver::Progress;
using solver::Report;

namespace {

struct Kept : solver::ProgressListener {
  void hear(const Report& report) override { all.push_back(report); }
  std::vector<Report> all;
};

/// Of a case that comes with thinspot.
solver::Case shipped(const std::string& name,
                     const std::vector<std::string>& overrides = {}) {
  const std::filesystem::path folder(THINSPOT_SOURCE_DIR "/cases");
  return io::read_case(folder / (name + ".toml"), overrides).content;
}

/// Reports of a simulation, each further than the one before, to the end.
std::vector<Report> reports_of(const std::vector<solver::Case>& layers) {
  Kept kept;
  solver::simulate(layers, Progress(kept));
  REQUIRE(kept.all.size() > 5);
  CHECK(kept.all.front().share == 0);
  CHECK(kept.all.back().share == 1);
  for (std::size_t k = 1; k < kept.all.size(); ++k) {
    const double before = kept.all[k - 1].share, now = kept.all[k].share;
    CAPTURE(k, before, now);
    CHECK(now >= before);
    CHECK(now - before < 0.35);
  }
  for (const Report& r : kept.all) {
    CHECK(*r.stage.name);
    CHECK(r.stage.number <= r.stage.of);
    CHECK((r.stage.number > 0) == (r.stage.of > 0));
  }
  return kept.all;
}

bool any(const std::vector<Report>& all, const solver::Stage& stage) {
  return std::any_of(all.begin(), all.end(), [&](const Report& r) {
    const solver::Stage& s = r.stage;
    return std::string(s.name) == stage.name &&
           std::string(s.unit) == stage.unit && s.number == stage.number &&
           s.of == stage.of;
  });
}

}  // namespace

TEST_CASE("a stretch of a stretch tells its share of the whole") {
  Kept kept;
  const Progress whole(kept);
  const Progress half = whole.part(0.5, 1).named({"half"});
  half.at(0);
  half.piece(1, 4).counted("angle", 2, 4).at(0.5);
  half.piece(2, 4, 2).at(1);
  const Progress layer = whole.within({"", "layer", 1, 2});
  layer.within({"angle"}).at(0.25);
  REQUIRE(kept.all.size() == 4);
  CHECK(kept.all[0].share == 0.5);
  CHECK(std::string(kept.all[0].stage.name) == "half");
  CHECK(kept.all[1].share == Approx(0.6875));
  CHECK(std::string(kept.all[1].stage.unit) == "angle");
  CHECK(kept.all[1].stage.number == 2);
  CHECK(kept.all[2].share == 1);
  CHECK(kept.all[2].stage.of == 0);
  CHECK(std::string(kept.all[3].over.unit) == "layer");
  // Who has a count keeps it.
  half.counted("step", 1, 3).counted("", 9, 9).at(0);
  CHECK(kept.all.back().stage.of == 3);
}

TEST_CASE("stretches meet to the last digit") {
  Kept kept;
  const Progress odd = Progress(kept).part(0.1, 0.7).part(1. / 3, 0.9);
  for (std::size_t k = 0; k < 7; ++k) {
    odd.piece(k, 7).at(0);
    odd.piece(k, 7).at(1);
  }
  for (std::size_t k = 2; k < kept.all.size(); k += 2)
    CHECK(kept.all[k].share == kept.all[k - 1].share);
}

TEST_CASE("work that unfolds takes of what is left") {
  Kept kept;
  solver::Unfolding pieces{Progress(kept)};
  pieces.next(1, 3).at(1);    // a quarter
  pieces.next(1, 1).at(1);    // less than was expected: half of the rest
  pieces.next(1, 2).at(1);    // more: a third of it
  pieces.next(2, 0).at(0.5);  // all of it
  pieces.next(1, 0).at(1);    // not expected at all
  REQUIRE(kept.all.size() == 5);
  for (const auto& [k, share] : {std::pair<std::size_t, double>{0, 0.25},
                                 {1, 0.625},
                                 {2, 0.75},
                                 {3, 0.875},
                                 {4, 1}})
    CHECK(kept.all[k].share == Approx(share));
}

TEST_CASE("reports go forwards to the end: steps") {
  const auto all = reports_of({shipped("token_four_turns")});
  CHECK(any(all, {"error bars"}));
  CHECK(any(all, {"what it means"}));
  const auto rack = reports_of({shipped("rack_of_six")});
  CHECK(any(rack, {"mesh and currents"}));
}

TEST_CASE("reports go forwards to the end: angles and their refinement") {
  const auto all =
      reports_of({shipped("token_on_motor", {"accuracy.tolerance=0.02 %"})});
  CHECK(any(all, {"mesh and currents", "angle", 5, 8}));
  CHECK(any(all, {"refining", "angle", 1, 8}));
}

TEST_CASE("reports go forwards to the end: growth") {
  const auto one = reports_of({shipped("worn_pin_build_up")});
  CHECK(any(one, {"growing", "", 2, 2}));
  solver::Case several = shipped("worn_pin_build_up");
  several.steps.front().duration.value /= 2;
  several.steps.push_back(several.steps.front());
  several.steps.back().supply->current_density->value *= 0.5;
  CHECK(any(reports_of({several}), {"growing", "step", 2, 2}));
}

TEST_CASE("reports go forwards to the end: layers") {
  const auto all =
      reports_of({shipped("token_copper"), shipped("token_nickel")});
  CHECK(any(all, {"mesh and currents", "step", 2, 2}));
  std::vector<std::string> over;
  for (const Report& r : all) {
    const std::string text =
        std::string(r.over.name) + r.over.unit + std::to_string(r.over.number);
    if (over.empty() || over.back() != text) over.push_back(text);
  }
  CHECK(over == std::vector<std::string>{"layer1", "layer2", "all layers0"});
}

TEST_CASE("a million reports take no time to speak of") {
  Kept kept;
  kept.all.reserve(2'000'000);
  for (const Progress& whole : {Progress(), Progress(kept)}) {
    const solver::Stopwatch watch;
    for (std::size_t k = 0; k < 1'000'000; ++k)
      whole.piece(k, 1'000'000).counted("step", k + 1, 1'000'000).at(0);
    CHECK(watch.seconds() < 2);
  }
  CHECK(kept.all.size() == 1'000'000);
}
