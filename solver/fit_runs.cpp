#include "solver/fit_runs.hpp"

#include "mesh/errors.hpp"
#include "solver/test_cells.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace thinspot::solver {

namespace {

using In = Reading::In;
using Of = Reading::Of;
using Where = Reading::Where;
using Kind = FigureOf::Kind;

/// Each is meshed and kept.
constexpr std::size_t kMostRuns = 60;

[[noreturn]] void refuse(const Reading& r, const std::string& wrong,
                         const std::string& mend) {
  throw InputError(fmt::format("reading in line {}", r.line), wrong, mend);
}

/// The part as it hangs in the first step, at another current.
Case at_current(const Case& c, const Reading& r) {
  if (!c.rectifiers.empty())
    refuse(r, "is at a current, but several rectifiers share it",
           "say each setting under with, as in rectifier.main.current=0.2 A");
  Case at = c;
  at.supply.current = Quantity{*r.at_current, 0};
  at.supply.current_density.reset();
  at.supply.voltage.reset();
  at.supply.voltage_limit.reset();
  at.supply.adapter.reset();
  at.steps = {c.steps.front()};
  at.steps.front().supply.reset();
  at.steps.front().turning.reset();
  return at;
}

/// What tells one case of an experiment from another.
struct Variant {
  In in = In::tank;
  std::optional<double> current;
  TestCell cell;
  bool operator==(const Variant&) const = default;
};

Variant variant_of(const Reading& r) {
  if (r.in == In::tank) return {r.in, r.at_current, {}};
  return {r.in, std::nullopt, r.cell};
}

Case case_for(const Case& c, const Reading& r) {
  if (r.in == In::panel) return panel_case(c, r.cell);
  Case own = r.at_current ? at_current(c, r) : c;
  own.probes.clear();
  return own;
}

/// The number of a probe at a place; one of the run's own.
std::size_t probe_at(Case& c, const mesh::Point& at) {
  for (std::size_t k = 0; k < c.probes.size(); ++k)
    if (c.probes[k].at == at) return k;
  c.probes.push_back({"", at});
  return c.probes.size() - 1;
}

mesh::Point place_of(const Case& drawn, const Reading& r) {
  if (r.where == Where::along) return on_panel(r.distance);
  if (r.where == Where::point) return r.point;
  for (const Probe& p : drawn.probes)
    if (p.name == r.at) return p.at;
  refuse(r, "is at \"" + r.at + "\", which is no probe of the case",
         "the name of a [[probe]], or \"x, y\"");
}

std::size_t step_of(const Case& c, const Reading& r) {
  const std::size_t step = r.step.value_or(c.steps.size() - 1);
  if (step >= c.steps.size())
    refuse(r, fmt::format("is of step {}", step + 1),
           fmt::format("the case has {}", c.steps.size()));
  return step;
}

Kind kind_of(const Reading& r) {
  switch (r.where) {
    case Where::thinnest: return Kind::least_judged;
    case Where::heaviest: return Kind::largest;
    case Where::mean: return Kind::mean;
    default: return Kind::probe;
  }
}

void add_figures(const Case& drawn, const Reading& r, std::size_t number,
                 FitRun& run) {
  ReadFigure f;
  f.reading = number;
  if (r.of == Of::voltage || r.of == Of::current) {
    f.figure = {Kind::voltage, step_of(run.content, r)};
    f.current = r.of == Of::current;
    run.figures.push_back(f);
    return;
  }
  f.area = r.of == Of::mass;
  f.figure.kind = kind_of(r);
  if (f.figure.kind == Kind::probe) {
    f.figure.of = probe_at(run.content, place_of(drawn, r));
    run.figures.push_back(f);
    return;
  }
  const std::size_t copies = copies_of(run.content);
  if (r.copy && *r.copy >= copies)
    refuse(r, fmt::format("is of part {}", *r.copy + 1),
           fmt::format("the case has {}", copies));
  if (!r.copy && !f.area && copies > 1)
    refuse(r, "is of no one part of the rack", "at = part 2, as one is called");
  for (std::size_t k = 0; k < copies; ++k) {
    if (r.copy && *r.copy != k) continue;
    f.figure.of = k;
    run.figures.push_back(f);
  }
}

}  // namespace

std::vector<FitRun> fit_runs(const std::vector<Experiment>& experiments) {
  std::vector<FitRun> runs;
  std::size_t number = 0;
  for (const Experiment& e : experiments) {
    std::vector<std::pair<Variant, std::size_t>> known;
    for (const Reading& r : e.readings) {
      const std::size_t own = number++;
      if (r.in == In::two_cathodes) continue;
      const Variant variant = variant_of(r);
      auto found = std::find_if(known.begin(), known.end(), [&](const auto& k) {
        return k.first == variant;
      });
      if (found == known.end()) {
        if (runs.size() >= kMostRuns)
          refuse(r, fmt::format("is of one more than {} set-ups", kMostRuns),
                 "fewer of different currents and `with`, in a table of its "
                 "own");
        runs.push_back({case_for(e.content, r), {}});
        known.push_back({variant, runs.size() - 1});
        found = known.end() - 1;
      }
      add_figures(e.content, r, own, runs[found->second]);
    }
  }
  return runs;
}

}  // namespace thinspot::solver
