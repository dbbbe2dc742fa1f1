#include "tests/peers/comparison.hpp"

#include "solver/certify.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::tests {

namespace {

using Eigen::Index;
using solver::Certified;
using solver::Extreme;
using solver::Model;
using solver::Surface;
using solver::SurfaceLoop;

/// A window of a part's surface.
struct Window {
  std::string what;
  const Surface* surface = nullptr;
  Extreme ours;
  double bar = 0;
};

const mesh::Outline& outline_of(const Model& model, const Surface& s) {
  return solver::solid_of(model, s).outline;
}

/// Least and largest of each part, and the probes, with what ours says.
std::vector<Window> windows_of(const Certified& solved, const solver::Case& c) {
  std::vector<Window> all;
  for (std::size_t p = 0; p < solved.model.surfaces.size(); ++p) {
    const Surface& s = solved.model.surfaces[p];
    const std::string& key = solver::solid_of(solved.model, s).spec.key;
    const solver::PartOutcome& part = solved.outcome.parts[p];
    const solver::MeshErrors::OfPart& bars = solved.errors.parts[p];
    all.push_back({"least on " + key, &s, part.least, bars.least});
    all.push_back({"largest on " + key, &s, part.largest, bars.largest});
  }
  for (std::size_t k = 0; k < c.probes.size(); ++k)
    all.push_back({"at " + c.probes[k].name, &solved.model.surfaces.front(),
                   solved.outcome.probes[k].window, solved.errors.probes[k]});
  return all;
}

void cut_ends(std::vector<Border>& borders, const Model& model,
              const Window& w) {
  const SurfaceLoop& loop = w.surface->loops[w.ours.of_loop];
  const std::size_t solid =
      model.response.electrodes().each[w.surface->electrode].solid;
  for (const double arc : {w.ours.from, w.ours.to}) {
    const solver::PlaceOnLoop at = solver::place_at(
        loop, outline_of(model, *w.surface), solver::wrapped(arc, loop.length));
    cut_at(borders, {static_cast<int>(solid), loop.loop, at.curve, at.t});
  }
}

/// The borders that lie in a window whose ends they were cut at.
std::vector<int> labels_in(const std::vector<Border>& borders,
                           const Model& model, const Window& w) {
  const SurfaceLoop& loop = w.surface->loops[w.ours.of_loop];
  std::vector<int> labels;
  for (std::size_t k = 0; k < borders.size(); ++k) {
    const Border& b = borders[k];
    if (b.electrode != static_cast<int>(w.surface->electrode) ||
        b.loop != loop.loop)
      continue;
    const double middle = solver::arc_of(loop, outline_of(model, *w.surface),
                                         b.curve, 0.5 * (b.t_from + b.t_to));
    if (solver::wrapped(middle - w.ours.from, loop.length) <
        w.ours.to - w.ours.from)
      labels.push_back(static_cast<int>(k) + 1);
  }
  return labels;
}

PeerProblem problem_of(const Certified& solved, const solver::Case& c,
                       const std::vector<Window>& windows) {
  PeerProblem problem;
  problem.axisymmetric = c.section.cut == mesh::Cut::axisymmetric;
  problem.conductivity = c.solution.conductivity.value;
  problem.resistance = solver::resistances_of(solved.outcome.point.laws);
  problem.borders = liquid_borders(solved.model);
  for (const Window& w : windows) cut_ends(problem.borders, solved.model, w);
  // Labels are places in the list: they hold once all has been cut.
  for (const Window& w : windows)
    problem.windows.push_back({static_cast<int>(w.surface->electrode),
                               labels_in(problem.borders, solved.model, w)});
  return problem;
}

/// Their figures: what the supply makes of the answers to one volt is no
/// question of finite elements.
std::vector<double> figures_of(const PeerAnswer& answer,
                               const Certified& solved, const solver::Case& c) {
  solver::WorkingPoint w = solved.outcome.point;
  w.answers.current = answer.current;
  solver::operate(w, c, solved.model.scale);
  std::vector<double> figures{w.terminal_voltage / w.total_current};
  for (Index e = 0; e < w.current.size(); ++e)
    if (!w.laws[static_cast<std::size_t>(e)].floating)
      figures.push_back(w.current(e));
  for (const Surface& s : solved.model.surfaces) {
    const auto e = static_cast<Index>(s.electrode);
    figures.push_back(w.current(e) /
                      (answer.measure(e) * solved.model.scale.depth));
  }
  const Eigen::VectorXd windows = answer.windows * w.drive;
  figures.insert(figures.end(), windows.begin(), windows.end());
  return figures;
}

/// In the order of figures_of, theirs still missing. The one place that says
/// how far off ours may be.
std::vector<Compared> our_figures(const Certified& solved,
                                  const std::vector<Window>& windows) {
  const solver::WorkingPoint& w = solved.outcome.point;
  const solver::MeshErrors& bars = solved.errors;
  std::vector<Compared> all{{"cell resistance, ohm",
                             w.terminal_voltage / w.total_current, 0,
                             bars.resistance, 0}};
  const auto& each = solved.model.response.electrodes().each;
  for (std::size_t e = 0; e < each.size(); ++e) {
    if (w.laws[e].floating) continue;  // zero by definition
    all.push_back(
        {"current of " + solved.model.section.solids[each[e].solid].spec.key +
             ", A",
         w.current(static_cast<Index>(e)), 0, bars.electrode_current[e], 0});
  }
  for (std::size_t p = 0; p < solved.model.surfaces.size(); ++p)
    all.push_back(
        {"mean on " +
             solver::solid_of(solved.model, solved.model.surfaces[p]).spec.key,
         solved.outcome.parts[p].current_density_spread.mean, 0,
         bars.parts[p].mean, 0});
  for (const Window& window : windows)
    all.push_back({window.what, window.ours.value, 0, window.bar, 0});
  return all;
}

/// Sizes that the averaging asks for, in a section of this size [m]. Where the
/// potential of a part is held, current densities at corners have no bound, and
/// averages near them settle with the 4/3 power of the size only; and windows
/// have ends as blurred as their elements there are long.
Fineness coarse_for(double averaging_length, double section, bool held) {
  Fineness f{};
  f.at_corner = (held ? 0.002 : 0.04) * averaging_length;
  f.at_cut = (held ? 0.01 : 0.2) * averaging_length;
  f.growth = 0.3;
  f.across = 0.5;
  f.turn = 0.04;
  f.largest = section / 20;
  return f;
}

}  // namespace

// Where the supply settles a current by itself, rounding is all that is left:
// some 1e5 equations solved directly keep ten digits (common practice).
bool Compared::agrees() const {
  return std::abs(ours - theirs) <=
         bar + 2 * their_error + 1e-10 * std::abs(ours);
}

bool Compared::tells() const { return their_error <= 5e-3 * std::abs(ours); }

Comparison compare_with_peer(const solver::Case& c) {
  const Certified solved = solver::certify(solver::build_model(c), c);
  const std::vector<Window> windows = windows_of(solved, c);
  const PeerProblem problem = problem_of(solved, c, windows);
  const mesh::Point size =
      mesh::bounding_box(solved.model.section.liquid_bounds).size();
  const Fineness f = coarse_for(
      c.accuracy.averaging_length, size.maxCoeff(),
      std::ranges::any_of(problem.windows, [&](const auto& w) {
        return problem.resistance.at(static_cast<std::size_t>(w.electrode)) ==
               0;
      }));
  const PeerAnswer fine = ask_peer(problem, f.times(0.5));
  const auto coarse_figures = figures_of(ask_peer(problem, f), solved, c);
  const auto fine_figures = figures_of(fine, solved, c);

  Comparison result;
  result.our_unknowns = static_cast<double>(solved.model.mesh.nodes.cols());
  result.their_unknowns = fine.unknowns;
  result.figures = our_figures(solved, windows);
  for (std::size_t k = 0; k < result.figures.size(); ++k) {
    result.figures[k].theirs = fine_figures.at(k);
    result.figures[k].their_error =
        std::abs(fine_figures.at(k) - coarse_figures.at(k));
  }
  return result;
}

}  // namespace thinspot::tests
