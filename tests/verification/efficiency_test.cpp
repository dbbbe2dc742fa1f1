// Current efficiency that goes by current density: thickness is
//   M / (n F rho) * i * eff(i) * t
// at every point, Faraday's law with the local efficiency. Where each plate has
// one current density the answer is a number.
#include "solver/efficiency.hpp"
#include "bench_cases.hpp"
#include "mesh/errors.hpp"
#include "solver/deposit.hpp"
#include "solver/gas.hpp"
#include "solver/simulate.hpp"
#include "solver/throwing_power.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;

namespace {

/// What zinc from an alkaline solution roughly does; invented.
double falling(double density) {
  return density < 50    ? 0.95
         : density > 600 ? 0.4
                         : 0.95 - (density - 50) / 1e3;
}

void set_table(solver::Solution& s, double reference) {
  s.efficiency_table = {{50, 0.95}, {600, 0.4}};
  s.efficiency = {0.95, 0};
  solver::refer_efficiency_to(s, reference);
}

}  // namespace

TEST_CASE("two plates with a local efficiency each", "[exact]") {
  solver::Case c = tests::token();
  c.cathode = {};
  const double mean = GENERATE(90., 180., 400.);
  CAPTURE(mean);
  set_table(c.solution, 123);
  const solver::Result r = solver::simulate(solver::haring_blum_cell(c, mean));
  const double near = 2 * mean * 5 / 6, far = 2 * mean / 6;
  const double charge = solver::growth_per_charge(c.solution.metal) * 3600;
  REQUIRE(r.parts.size() == 2);
  // The field lies in the space of P2.
  const auto thickness = [&](std::size_t part) {
    return r.parts[part].thickness.value;
  };
  CHECK(thickness(0).mean ==
        Approx(charge * near * falling(near)).epsilon(1e-8));
  CHECK(thickness(0).min == Approx(thickness(0).mean).epsilon(1e-8));
  CHECK(thickness(1).mean == Approx(charge * far * falling(far)).epsilon(1e-8));
  CHECK(r.parts[0].mass ==
        Approx(thickness(0).mean * r.parts[0].area * c.solution.metal.density)
            .epsilon(1e-9));
  // What does not deposit is hydrogen: two electrons a molecule.
  const double area = r.parts[0].area;
  const double lost =
      3600 * area * (near * (1 - falling(near)) + far * (1 - falling(far)));
  CHECK(solver::gas_of(r).hydrogen ==
        Approx(lost / (2 * solver::kFaraday) * solver::kMolarVolume)
            .epsilon(1e-7));
  const auto t = solver::throwing_power(c, mean);
  CHECK(t.mass_ratio == Approx(5 * falling(near) / falling(far)).epsilon(1e-8));
}

TEST_CASE("a level table is one efficiency", "[exact]") {
  solver::Case c = tests::token();
  c.solution.efficiency = {0.9, 0};
  const solver::Result plain = solver::simulate(c);
  c.solution.efficiency_table = {{10, 0.9}, {1000, 0.9}};
  solver::refer_efficiency_to(c.solution, 77);
  const solver::Result level = solver::simulate(c);
  const auto& a = plain.parts[0].thickness.value;
  const auto& b = level.parts[0].thickness.value;
  CHECK(b.min == Approx(a.min).epsilon(1e-12));
  CHECK(b.max == Approx(a.max).epsilon(1e-12));
  // One sums currents, the other thickness along the true outline: as far
  // apart as the mesh's arcs and their quadratics.
  CHECK(b.mean == Approx(a.mean).epsilon(1e-4));
}

TEST_CASE("thickness of two steps with a local efficiency", "[exact]") {
  solver::Case c = tests::token();
  set_table(c.solution, 200);
  c.steps.push_back(c.steps.front());
  c.steps.back().motion.flip = true;
  const solver::Result r = solver::simulate(c);
  const double charge = solver::growth_per_charge(c.solution.metal);
  const auto& surface = r.parts[0].surface;
  double volume = 0;
  std::size_t seen = 0;
  for (std::size_t k = 0; k < surface.size(); ++k) {
    volume += surface[k].weight * surface[k].thickness;
    if (!surface[k].wetted) continue;
    double sum = 0;
    for (const solver::StepResult& step : r.steps) {
      const double i =
          step.parts[0].current_density(static_cast<Eigen::Index>(k));
      sum += charge * step.duration * i * falling(i);
    }
    CHECK(surface[k].thickness == Approx(sum).epsilon(1e-9));
    ++seen;
  }
  CHECK(seen > 100);
  CHECK(r.parts[0].mass ==
        Approx(volume * c.solution.metal.density).epsilon(1e-9));
}

TEST_CASE("the tolerance of a table is a share of all of it", "[exact]") {
  solver::Case c = tests::token();
  c.solution.conductivity.plus_minus = 0;
  c.cathode.resistance.plus_minus = 0;
  c.wires.clear();
  set_table(c.solution, 200);
  const double at_reference = c.solution.efficiency.value;
  c.solution.efficiency.plus_minus = 0.05 * at_reference;
  const solver::BandedSpread t = solver::simulate(c).parts[0].thickness;
  const double half = 0.5 * (t.mean_band.high - t.mean_band.low);
  // Beside it there is the mesh's error alone, squared and added.
  CHECK(half > 0.05 * t.value.mean * (1 - 1e-9));
  CHECK(half < std::hypot(0.05 * t.value.mean, t.mesh_error.mean) * (1 + 1e-6));
}
