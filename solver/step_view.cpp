#include "solver/step_view.hpp"

#include "solver/same_part.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

using mesh::Motion;
using mesh::Point;

Point turned(const Point& v, const Motion& m) {
  const double c = std::cos(m.turn), s = std::sin(m.turn);
  const Point way(c * v.x() - s * v.y(), s * v.x() + c * v.y());
  return m.flip ? Point(-way.x(), way.y()) : way;
}

/// From where one drawing has a part to where another has it.
void carry(PartResult& part, const mesh::Solid& here,
           const mesh::Solid& there) {
  const double turn = there.turn - here.turn;
  const auto place = [&](Point& p) { p = as_drawn_there(here, there, p); };
  for (SurfacePoint& p : part.surface) {
    place(p.at);
    if (turn != 0) p.normal = turned(p.normal, {false, turn});
  }
  for (Spot& s : part.thin_spots) place(s.at);
  for (Spot& s : part.heavy_spots) place(s.at);
}

/// Moves a part about its axis.
void move(PartResult& part, const Point& centre, const Motion& motion) {
  if (motion == Motion{}) return;
  const auto place = [&](Point& p) { p = centre + turned(p - centre, motion); };
  for (SurfacePoint& p : part.surface) {
    place(p.at);
    p.normal = turned(p.normal, motion);
  }
  for (Spot& s : part.thin_spots) place(s.at);
  for (Spot& s : part.heavy_spots) place(s.at);
}

Point axis_of_part(const Result& result, std::size_t part) {
  return mesh::axis_of(result.section.solids[result.parts[part].solid].spec);
}

std::string named(const std::vector<std::string>& names, const char* what) {
  return fmt::format("{} {}", fmt::join(names, ", "), what);
}

/// What the layers have left along a part after a step, those to come none.
std::vector<LayerResult> layers_after(const Result& result,
                                      const StepResult& step) {
  std::vector<LayerResult> layers;
  for (std::size_t l = 0; l < result.layers.size(); ++l) {
    const LayerResult& layer = result.layers[l];
    LayerResult& until = layers.emplace_back();
    until.name = layer.name;
    until.metal = layer.metal;
    until.thickness = layer.thickness;
    for (std::size_t p = 0; p < until.thickness.size() && l >= step.layer;
         ++p) {
      Eigen::VectorXd& t = until.thickness[p];
      if (l > step.layer) {
        t.setZero();
        continue;
      }
      t = step.parts[p].grown;
      for (std::size_t below = 0; below < l; ++below)
        t -= result.layers[below].thickness[p];
    }
  }
  return layers;
}

}  // namespace

std::string step_in_words(const StepResult& step) {
  std::vector<std::string> words;
  if (step.motion.flip) words.emplace_back("flipped");
  const double degrees = step.motion.turn * 180 / std::numbers::pi;
  if (std::abs(degrees) > 1e-9)
    words.push_back(fmt::format("turned by {:.4g}\u00B0", degrees));
  if (step.turning && step.turning->positions > 1)
    words.push_back(fmt::format("in {} positions", step.turning->positions));
  if (step.turning && step.turning->positions == 0)
    words.push_back(
        fmt::format("turning at {:.3g} rpm", 60 * step.turning->rate));
  if (!step.off.empty()) words.push_back(named(step.off, "off"));
  if (!step.lifted.empty()) words.push_back(named(step.lifted, "out"));
  if (words.empty()) words.emplace_back("as drawn");
  if (step.temperature)
    words.push_back(
        fmt::format("at {:.3g} \u00B0C", *step.temperature - 273.15));
  const std::string done = fmt::format("{}", fmt::join(words, ", "));
  return step.metal.empty() ? done : step.metal + ", " + done;
}

Interval thickness_after(const StepResult& step) {
  if (step.parts.empty()) return {};
  const Spread& first = step.parts.front().thickness;
  Interval all{first.min, first.max};
  for (const StepResult::OfPart& part : step.parts) {
    all.low = std::min(all.low, part.thickness.min);
    all.high = std::max(all.high, part.thickness.max);
  }
  return all;
}

Result after_step(const Result& result, std::size_t k) {
  const StepResult& step = result.steps[k];
  Result view;
  view.used = result.used;
  if (!result.layers.empty()) {
    view.used = result.layers[step.layer].own.used;
    view.used.target = result.used.target;
    view.layers = layers_after(result, step);
  }
  view.section = step.section;
  view.depth = result.depth;
  view.target = result.target;
  view.cell = step.cell;
  for (std::size_t p = 0; p < result.parts.size(); ++p) {
    PartResult part = result.parts[p];
    const mesh::Solid& shown = result.section.solids[part.solid].spec;
    part.solid = mesh::index_of(step.section, shown.key);
    const mesh::Solid& there = step.section.solids[part.solid].spec;
    part.thickness.value = step.parts[p].thickness;
    for (std::size_t n = 0; n < part.surface.size(); ++n) {
      const auto at = static_cast<Eigen::Index>(n);
      part.surface[n].thickness = step.parts[p].grown(at);
      part.surface[n].current_density = step.parts[p].current_density(at);
    }
    carry(part, shown, there);
    move(part, mesh::axis_of(there), step.motion);
    view.parts.push_back(std::move(part));
  }
  return view;
}

Result as_left(Result result) {
  for (std::size_t p = 0; p < result.parts.size(); ++p)
    move(result.parts[p], axis_of_part(result, p), result.steps.back().motion);
  return result;
}

}  // namespace thinspot::solver
