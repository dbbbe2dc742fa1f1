#include "tests/unit/sample_plan.hpp"

#include "case_text.hpp"
#include "tests/unit/sample_result.hpp"

#include <memory>

namespace thinspot::tests {

namespace {

solver::Case drawn_case() {
  return read_text(sound_case() + "[target]\nthickness = \"10 um\"\n").content;
}

solver::PlanFigures figures(double plating_min, double bench_min,
                            double evenness, double metal_g) {
  solver::PlanFigures f;
  f.plating = 60 * plating_min;
  f.bench = 60 * bench_min;
  f.least = 10e-6;
  f.mean = 14e-6;
  f.largest = evenness * f.least;
  f.evenness = evenness;
  f.metal = 1e-3 * metal_g;
  f.densest = 420;
  f.current = 0.4;
  f.voltage = 0.52;
  return f;
}

std::shared_ptr<const solver::Result> result_of(const solver::Case& c) {
  solver::Result r = sample_result();
  r.used.title = c.title;
  r.cautions = {"Goggles.", "Gloves."};
  return std::make_shared<const solver::Result>(std::move(r));
}

solver::SetUp moved_and_turned(const solver::Case& drawn) {
  solver::SetUp s{"one anode, turned once", drawn, figures(36, 37, 1.84, 0.25),
                  result_of(drawn)};
  s.figures.turns = 1;
  s.content.section.solids[1].gap = 0.022;
  s.content.supply.current->value = 0.4;
  s.content.steps.front().duration = {1080, 0};
  s.content.steps.push_back(s.content.steps.front());
  s.content.steps.back().motion.flip = true;
  return s;
}

solver::SetUp one_sheet_more(const solver::Case& drawn) {
  solver::SetUp s{"two anodes, not turned", drawn, figures(41, 41, 2.1, 0.3),
                  result_of(drawn)};
  mesh::Solid sheet = drawn.section.solids[1];
  sheet.name = "sheet 2";
  sheet.key = "anode.sheet 2";
  sheet.side = mesh::Side::right;
  s.content.anodes.push_back(s.content.anodes.front());
  s.content.anodes.back().name = sheet.name;
  s.content.anodes.back().solid = s.content.section.solids.size();
  s.content.section.solids.push_back(sheet);
  s.content.steps.front().duration = {2460, 0};
  return s;
}

}  // namespace

solver::Plan sample_plan() {
  solver::Plan plan;
  const solver::Case drawn = drawn_case();
  plan.drawn = {"as drawn", drawn, figures(118, 118, 2.94, 0.6),
                result_of(drawn)};
  plan.set_ups = {moved_and_turned(drawn), one_sheet_more(drawn)};
  plan.trade_off = {{2220, 1.84, 0.4, 1, "one anode, turned once"},
                    {4000, 1.5, 0.2, 1, "one anode, turned once"}};
  plan.levers = {{"", "turned half a turn at half time", 4.2e-6, 0.42},
                 {"anode.sheet.gap", "sheet farther from the part, by 1 mm",
                  -1.2e-7, -0.012}};
  plan.varied = {"gap between the sheet and the part, 20 mm to 60 mm"};
  plan.layouts = 12;
  plan.candidates = 48;
  plan.seconds = 3.5;
  return plan;
}

solver::Plan plan_as_drawn() {
  solver::Plan plan = sample_plan();
  plan.set_ups = {plan.drawn};
  plan.levers.clear();
  plan.trade_off.clear();
  return plan;
}

}  // namespace thinspot::tests
