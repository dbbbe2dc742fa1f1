#include "solver/layout.hpp"

#include "mesh/errors.hpp"
#include "mesh/turning_disc.hpp"
#include "solver/anode_limit.hpp"
#include "solver/coat.hpp"
#include "solver/deposit.hpp"
#include "solver/efficiency.hpp"
#include "solver/extremes.hpp"
#include "solver/outcome.hpp"
#include "solver/settings.hpp"
#include "solver/step_case.hpp"
#include "solver/turning.hpp"
#include "solver/window.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// Of meshes that are looked at once [share of the mean]. A tenth of it is what
/// meshes of this kind are off; the search tells set-ups apart by a hundredth.
constexpr double kTolerance = 5e-3;
/// Angles that stand for a part that turns without a stop: the mean over them
/// is exact to 1e-4 even a millimetre from an anode.
constexpr int kAngles = 8;

bool same_around(const Step& a, Step b) {
  b.motion = a.motion;
  return same_places(a, b);
}

struct Solved {
  const Model* model;
  Outcome outcome;
  Case used;
  double growth;
};

void add_currents(const Solved& s, double share, Yield& y) {
  double current = 0;
  for (std::size_t p = 0; p < s.outcome.parts.size(); ++p) {
    const PartOutcome& part = s.outcome.parts[p];
    y.densest = std::max(y.densest, part.current_density_spread.max);
    current += part.current;
  }
  y.mean_density = std::max(y.mean_density, current / s.model->scale.part_area);
  const WorkingPoint& w = s.outcome.point;
  y.metal += share * w.total_current * mass_per_charge(s.used.solution.metal) *
             s.used.solution.efficiency.value;
  const auto& each = s.model->response.electrodes().each;
  for (std::size_t e = 0; e < each.size(); ++e) {
    const Anode* anode = anode_of(s.used, each[e].solid);
    if (!anode) continue;
    const auto limit = anode_limit(s.used, *anode);
    if (!limit) continue;
    const double mean = std::abs(w.current(static_cast<Index>(e))) /
                        (each[e].measure * s.model->scale.depth);
    y.anode_load = std::max(y.anode_load, mean / limit->density.value);
  }
}

double average(const Surface& surface, const VectorXd& values,
               const Extreme& window) {
  return window_average(surface, window, values.size()).weights.dot(values);
}

/// One mesh along the part in all phases: nodes add up as they are.
void add_up_alike(const std::vector<Solved>& all, double window, Yield& y,
                  std::vector<double>& parts) {
  const Surface& surface = all.front().model->surfaces.front();
  VectorXd thickness =
      VectorXd::Zero(all.front().outcome.parts.front().current_density.size());
  for (const Solved& s : all) {
    const PartOutcome& part = s.outcome.parts.front();
    thickness += s.growth * depositing(s.used.solution, part.current_density);
    y.mean += s.growth *
              depositing(s.used.solution, part.current_density_spread.mean);
  }
  const Extreme least =
      most_extreme(averages_over(surface, thickness, window, true), -1, y.mean);
  y.least = least.value;
  for (const Solved& s : all)
    if (least.to > least.from)
      parts.push_back(average(
          surface,
          s.growth * depositing(s.used.solution,
                                s.outcome.parts.front().current_density),
          least));
  y.largest =
      most_extreme(averages_over(surface, thickness, window, false), 1, y.mean)
          .value;
}

void add_up_apart(const std::vector<Solved>& all, const mesh::Section& drawn,
                  double window, Yield& y, std::vector<double>& parts) {
  const Model& first = *all.front().model;
  double area = 0;
  y.least = -1;
  for (std::size_t p = 0; p < first.surfaces.size(); ++p) {
    std::vector<StepOnPart> steps;
    double volume = 0;
    for (const Solved& s : all) {
      if (s.model->surfaces.size() != first.surfaces.size())
        throw NoResultError(
            "of some part nothing is wetted in one of the steps");
      const Surface& surface = s.model->surfaces[p];
      const PartOutcome& part = s.outcome.parts[p];
      steps.push_back({&solid_of(*s.model, surface), &surface, &s.model->mesh,
                       &part.current_density, s.growth, &s.used.solution});
      volume += s.growth * part.current;
    }
    const std::string& key = solid_of(first, first.surfaces[p]).spec.key;
    const Coat coat = lay_down(drawn.solids[mesh::index_of(drawn, key)].outline,
                               drawn.cut, first.scale.depth, steps);
    const CoatSpread spread = spread_of(coat, coat.thickness, volume, window);
    const bool judged = spread.least_judged.to > spread.least_judged.from;
    const double least =
        judged ? spread.least_judged.value : spread.thickness.min;
    if (y.least < 0 || least < y.least) {
      const Extreme& there = judged ? spread.least_judged : spread.least;
      parts.clear();
      for (Index k = 0; k < coat.deposit.cols(); ++k)
        if (there.to > there.from)
          parts.push_back(average(coat.surface, coat.deposit.col(k), there));
      y.least = least;
    }
    y.largest = std::max(y.largest, spread.thickness.max);
    y.mean += spread.thickness.mean * coat.area;
    area += coat.area;
  }
  y.mean /= area;
}

}  // namespace

Case driven(Case c, double factor) {
  for_each_setting(c, [&](Quantity& setting) { setting.value *= factor; });
  return c;
}

Layout::Layout(Case c, FreePart* part) : case_(std::move(c)), part_(part) {
  case_.accuracy.tolerance = std::max(case_.accuracy.tolerance, kTolerance);
  case_.probes.clear();
}

Model Layout::model_of(const Case& used) {
  const Step& step = used.steps.front();
  const auto known =
      std::find_if(around_.begin(), around_.end(),
                   [&](const Around& a) { return same_around(a.like, step); });
  Around* around = known == around_.end() ? nullptr : &*known;
  if (!around) {
    Around made;
    made.like = step;
    made.section = mesh::build_as_drawn(used.section);
    std::vector<mesh::TurningDisc> discs;
    if (part_) discs = mesh::free_discs(made.section);
    if (!discs.empty()) made.inside = part_->inside(discs.front());
    if (made.inside) {
      mesh::TurningDisc& disc = discs.front();
      mesh::set_radius(disc, made.inside->radius, made.inside->half.waves);
      made.part = disc.solid;
      made.section.discs = {disc};
      made.outside = half_response(
          mesh::generate_side(made.section, grading_of(used),
                              mesh::DiscSide::outside),
          made.section, mesh::DiscSide::outside, made.inside->half.waves);
    }
    around_.push_back(std::move(made));
    around = &around_.back();
  }
  if (!around->inside) return build_model(used);
  reused_ = true;
  const HalfResponse& inside = around->inside->half;
  Model model{
      around->section,
      {},
      joined(inside, around->outside, around->part, used.section.motion),
      {around->inside->surface},
      {},
      0,
      0};
  const auto& each = model.response.electrodes().each;
  const auto part =
      std::find_if(each.begin(), each.end(),
                   [&](const Electrode& e) { return e.solid == around->part; });
  model.surfaces.front().electrode =
      static_cast<std::size_t>(part - each.begin());
  model.scale.depth = section_depth(used, around->section);
  for (const Wire& w : used.wires) model.scale.wire_area += bare_area(w);
  model.scale.part_area = part->measure * model.scale.depth;
  return model;
}

Layout::Standing& Layout::standing(const Case& used) {
  const Step& step = used.steps.front();
  for (const auto& known : standing_)
    if (same_places(known->like, step)) return *known;
  auto made = std::make_unique<Standing>();
  made->like = step;
  made->model = std::make_unique<Model>(model_of(used));
  standing_.push_back(std::move(made));
  return *standing_.back();
}

Yield Layout::yield(const std::vector<Step>& steps, double factor) {
  ++asked_;
  parts_.clear();
  Case asked = case_;
  asked.steps = steps;
  asked = driven(std::move(asked), factor);
  const double total = total_duration(asked);
  const Expanded all =
      expanded(asked, std::vector<int>(asked.steps.size(), kAngles));
  std::vector<Solved> solved;
  Yield y;
  for (std::size_t k = 0; k < all.content.steps.size(); ++k) {
    Solved s{nullptr, {}, case_of_step(all.content, k), 0};
    s.growth = growth_per_density(s.used) / total;
    Standing& at = standing(s.used);
    s.model = at.model.get();
    s.outcome = evaluate(*at.model, s.used,
                         at.last ? Beginning{&*at.last, true} : Beginning{});
    at.last = s.outcome.point;
    add_currents(s, all.content.steps[k].duration.value / total, y);
    if (k == 0) {
      y.current = s.outcome.point.total_current;
      y.voltage = s.outcome.point.terminal_voltage;
    }
    solved.push_back(std::move(s));
  }
  const bool alike =
      std::all_of(solved.begin(), solved.end(), [&](const Solved& s) {
        return s.model->surfaces.size() == 1 && s.model->mesh.nodes.cols() == 0;
      });
  if (alike) {
    add_up_alike(solved, case_.accuracy.averaging_length, y, parts_);
    return y;
  }
  if (!drawn_) drawn_ = mesh::build_as_drawn(case_.section);
  add_up_apart(solved, *drawn_, case_.accuracy.averaging_length, y, parts_);
  return y;
}

}  // namespace thinspot::solver
