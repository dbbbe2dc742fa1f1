#include "tests/unit/plan_samples.hpp"

#include "tests/unit/synthetic_result.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <memory>

namespace thinspot::tests {

namespace {

constexpr double kQuickest = 30 * 60;  ///< of the trade-off [s]

solver::SetUp set_up_of(const std::string& name, const Synthetic& wanted,
                        double minutes, double evenness, int turns) {
  const auto result =
      std::make_shared<solver::Result>(synthetic_result(wanted));
  solver::SetUp s{name, result->used, {}, result};
  s.figures = {.plating = (minutes - turns) * 60,
               .bench = minutes * 60,
               .turns = turns,
               .least = 10e-6,
               .mean = 10e-6 * std::sqrt(evenness),
               .largest = 10e-6 * evenness,
               .evenness = evenness,
               .metal = 0.41e-3,
               .densest = 210,
               .current = 0.33,
               .voltage = 0.34,
               .breaks = {}};
  return s;
}

}  // namespace

solver::Plan plan_sample(const PlanWanted& wanted) {
  struct Made {
    std::string name;
    double minutes, evenness;
    int turns;
    std::vector<std::string> anodes;
  };
  const std::array<Made, 4> made = {{
      {wanted.name, 46, 1.9, 1, {"sheet", "sheet 2"}},
      {"two anodes, not turned", 52, 2.1, 0, {"sheet", "sheet 2"}},
      {"one anode, turned once", 60, 2.2, 1, {"sheet"}},
      {"one anode, not turned", 75, 2.4, 0, {"sheet"}},
  }};
  solver::Plan plan;
  const Synthetic one{.title = wanted.title};
  plan.drawn = set_up_of("as drawn", one, 80, 2.6, 0);
  for (std::size_t k = 0; k < wanted.set_ups; ++k) {
    const Made& m = made.at(k);
    plan.set_ups.push_back(
        set_up_of(m.name, {.title = wanted.title, .anodes = m.anodes},
                  wanted.alike ? 80 : m.minutes,
                  wanted.alike ? 2.6 : m.evenness, m.turns));
  }
  const double last =
      std::max<double>(1, static_cast<double>(wanted.points) - 1);
  for (std::size_t k = 0; k < wanted.points; ++k) {
    const double share = static_cast<double>(k) / last;
    plan.trade_off.push_back(
        {wanted.alike ? 80 * 60 : kQuickest * std::pow(wanted.longest, share),
         wanted.alike ? 2.6 : 1.4 + 0.9 * (1 - share) * (1 - share), 0.33,
         static_cast<int>(k % 3),
         k % 2 == 0 ? "two anodes, turned once" : "one anode, not turned"});
  }
  for (std::size_t k = 0; k < wanted.levers; ++k) {
    const double share =
        0.12 / static_cast<double>(1 + k) * (k % 3 == 2 ? -1 : 1);
    plan.levers.push_back(
        {"anode.sheet.gap",
         fmt::format("sheet {} mm farther from the part", k + 1), share * 10e-6,
         share});
  }
  plan.varied = {"gap between the sheet and the part, 15 to 60 mm"};
  plan.layouts = 96;
  plan.candidates = 4100;
  plan.seconds = 5;
  return plan;
}

}  // namespace thinspot::tests
