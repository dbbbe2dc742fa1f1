// The two test cells among the shipped cases, against what theory has for them.
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace thinspot::tests;

namespace {

nlohmann::json solved(const std::string& name,
                      std::vector<std::string> settings = {}) {
  const Scratch scratch;
  std::vector<std::string> arguments{"solve", shipped_case(name).string(),
                                     "--out", (scratch / "out").string()};
  for (std::string& setting : settings) {
    arguments.push_back("--set");
    arguments.push_back(std::move(setting));
  }
  const Run run = run_thinspot(scratch.path(), arguments);
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  return nlohmann::json::parse(content(scratch / "out/summary.json"));
}

double density(const nlohmann::json& place) {
  return place["current_density_A_dm2"].get<double>();
}

}  // namespace

// Current density over its mean at a tenth, a half and nine tenths of the
// panel, at a Wagner number kappa R / panel length of 0.05, anode unpolarized:
// from the conformal map of the trapezoid (as in West, Matlosz and Landolt,
// J. Appl. Electrochem. 22 (1992) 301) with a linear slope on the panel, worked
// out apart from this program to ten digits.
//
// Tolerance: the case's 0.1 % of the mean for the mesh. Sizes are given to
// 1 um and 0.001 deg, which is less than a tenth of that here.
TEST_CASE("the trapezoid cell agrees with the exact distribution") {
  // 0.05 * 101.6496 mm / (20 S/m), the same at any current: the table below
  // leaves polarization_at where the panel's mean is, 1 A on 48.9951 cm2.
  const auto summary = solved(
      "trapezoid_cell", {"cathode.polarization_resistance=2.541240 ohm cm2",
                         "cathode.polarization_at=2.041020 A/dm2"});
  const double mean =
      summary["part"]["current_density_A_dm2"]["mean"].get<double>();
  CHECK(mean == Approx(2.041020).epsilon(1e-4));
  const std::vector<double> exact{2.1722703668, 0.7920252131, 0.1469518479};
  REQUIRE(summary["probes"].size() == exact.size());
  for (std::size_t i = 0; i < exact.size(); ++i) {
    CAPTURE(i);
    CHECK(density(summary["probes"][i]) / mean ==
          Approx(exact[i]).epsilon(0).margin(1e-3));
  }
}

// Two cells side by side, each of one dimension: i = V / (gap/kappa + R), with
// R = 2.6 ohm cm2 at both plates and nothing at the gauze.
//
// Tolerance: 0.1 % of the mean on either plate. The far one has 0.38 of the
// mean, so the ratio is sure to 0.1 % * (1/0.38 + 1/1.62) = 0.33 %. The hair of
// room beside the gauze, 0.2 mm of a half width of 25 mm, lengthens either cell
// by about 25 mm * (2/pi) * (pi/2 * 0.2/25)^2 / 2 = 1.3 um: nothing.
TEST_CASE("the two-plate cell divides the metal as its two resistances do") {
  const auto summary = solved("two_plate_cell");
  REQUIRE(summary["parts"].size() == 2);
  const auto mean = [&](std::size_t copy) {
    return summary["parts"][copy]["thickness_um"]["mean"].get<double>();
  };
  const double kappa = 20, slope = 2.6e-4;
  const double ratio = (0.125 / kappa + slope) / (0.025 / kappa + slope);
  CHECK(mean(0) / mean(1) == Approx(ratio).epsilon(3.3e-3));
}
