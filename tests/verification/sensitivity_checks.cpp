// Differences over four points at a distance h of the input have an error of
// h^4/30 of the fifth derivative, and 3/2 of the working point's own over h.
// That is found to 1e-10; h = 3e-3 leaves 3e-12 and 5e-8 of a figure that goes
// by its inputs as powers of a few do.
#include "sensitivity_checks.hpp"

#include "solver/deposit.hpp"
#include "solver/efficiency.hpp"
#include "solver/outcome.hpp"
#include "solver/step_case.hpp"
#include "solver/window.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <memory>

namespace thinspot::tests {

using solver::FigureOf;
using Kind = solver::FigureOf::Kind;

namespace {

constexpr double kStep = 3e-3, kAgrees = 1e-6;

/// A figure of the same schedule for other inputs, windows as they are.
std::vector<double> again(const solver::Schedule& s, const solver::Case& c,
                          const std::vector<FigureOf>& figures) {
  const solver::Case all = solver::expanded(c, s.angles).content;
  std::vector<std::unique_ptr<solver::Outcome>> outcomes;
  std::vector<const solver::Outcome*> seen;
  std::vector<double> growth;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    solver::Case alone = solver::case_of_step(all, k);
    alone.probes = s.steps[k].used.probes;
    growth.push_back(solver::growth_per_density(alone));
    outcomes.push_back(std::make_unique<solver::Outcome>(
        solver::evaluate(s.steps[k].solved->model, alone)));
    seen.push_back(outcomes.back().get());
  }
  const solver::Laid laid = solver::lay_down(s, c, seen, growth);
  std::vector<double> values;
  for (const FigureOf& f : figures) {
    double value = 0;
    if (f.kind == Kind::voltage) {
      value = seen[f.of]->point.terminal_voltage;
    } else if (f.kind == Kind::probe) {
      for (std::size_t k = 0; k < seen.size(); ++k)
        value +=
            growth[k] * solver::depositing(s.steps[k].used.solution,
                                           seen[k]->probes[f.of].window.value);
    } else if (f.kind == Kind::mean) {
      value = laid.spreads[f.of].thickness.mean;
    } else {
      const solver::CoatSpread& spread = s.spreads[f.of];
      const solver::Extreme& window = f.kind == Kind::least ? spread.least
                                      : f.kind == Kind::largest
                                          ? spread.largest
                                          : spread.least_judged;
      const solver::Coat& coat = laid.coats[f.of];
      value =
          solver::window_average(coat.surface, window, coat.thickness.size())
              .weights.dot(coat.thickness);
    }
    values.push_back(value);
  }
  return values;
}

std::vector<FigureOf> all_figures(const solver::Schedule& s) {
  std::vector<FigureOf> figures;
  for (std::size_t p = 0; p < s.spreads.size(); ++p) {
    for (Kind kind : {Kind::least, Kind::largest, Kind::mean})
      figures.push_back({kind, p});
    const solver::Extreme& judged = s.spreads[p].least_judged;
    if (judged.to > judged.from) figures.push_back({Kind::least_judged, p});
  }
  for (std::size_t k = 0; k < s.probe_thickness.size(); ++k)
    figures.push_back({Kind::probe, k});
  for (std::size_t k = 0; k < std::min<std::size_t>(2, s.steps.size()); ++k)
    figures.push_back({Kind::voltage, k});
  return figures;
}

}  // namespace

solver::Sensitivities compare(const solver::Case& c) {
  const solver::Schedule s = solver::run_schedule(c);
  const std::vector<FigureOf> figures = all_figures(s);
  const solver::Sensitivities found = solver::sensitivities(s, c, figures);
  const std::vector<double> here = again(s, c, figures);
  for (std::size_t f = 0; f < figures.size(); ++f) {
    CAPTURE(f);
    CHECK(found.figures[f].bend == "");
    CHECK(found.figures[f].value == Approx(here[f]).epsilon(1e-8));
  }
  solver::Case moved = c;
  std::size_t n = 0;
  solver::for_each_quantity(
      moved, [&](const std::string& key, solver::Quantity& q) {
        const std::size_t at = n++;
        REQUIRE(found.keys[at] == key);
        CHECK(found.at[at] == q.value);
        if (q.value == 0) return;
        const double value = q.value;
        const auto with = [&](double share) {
          q.value = value * (1 + share * kStep);
          const auto there = again(s, moved, figures);
          q.value = value;
          return there;
        };
        const auto a = with(1), b = with(-1), a2 = with(2), b2 = with(-2);
        for (std::size_t f = 0; f < figures.size(); ++f) {
          const double by =
              (8 * (a[f] - b[f]) - (a2[f] - b2[f])) / (12 * kStep * here[f]);
          CAPTURE(key, f, by);
          REQUIRE(found.figures[f].by[at]);
          CHECK(std::abs(*found.figures[f].by[at] * value / here[f] - by) <=
                kAgrees);
        }
      });
  CHECK(n == found.keys.size());
  return found;
}

std::optional<double> share_by(const solver::Sensitivities& s,
                               const std::string& key, std::size_t figure) {
  for (std::size_t k = 0; k < s.keys.size(); ++k)
    if (s.keys[k] == key && s.figures[figure].by[k])
      return *s.figures[figure].by[k] / s.figures[figure].value;
  return std::nullopt;
}

}  // namespace thinspot::tests
