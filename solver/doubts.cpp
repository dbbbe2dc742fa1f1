#include "solver/doubts.hpp"

#include "solver/bench_measuring.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;

Doubt doubt_of(const InputEffect& effect,
               const std::vector<LayerOfSteps>& layers) {
  const InputGroup& group = layers[effect.layer].groups[effect.group];
  Doubt doubt;
  doubt.left = 0;
  for (std::size_t k = 0; k < group.keys.size(); ++k) {
    doubt.inputs.push_back({group.keys[k], group.stated[k],
                            layers.size() > 1 ? effect.layer + 1 : 0});
    // Of several that go together, what the worst of them leaves.
    doubt.left =
        std::max(doubt.left, measured_to(group.keys[k], group.stated[k]) /
                                 half_width(group.stated[k]));
  }
  return doubt;
}

double variance(const InputEffect& effect, Index figure) {
  return effect.up(figure) + effect.down(figure);
}

bool is_of(const Doubt& doubt, const InputEffect& effect,
           const std::vector<LayerOfSteps>& layers) {
  const Doubt::Input& first = doubt.inputs.front();
  const std::size_t layer = first.layer > 0 ? first.layer - 1 : 0;
  return effect.layer == layer &&
         layers[layer].groups[effect.group].keys.front() == first.key;
}

}  // namespace

std::vector<Doubt> doubts_about(Index figure, const InputEffects& effects,
                                const std::vector<LayerOfSteps>& layers) {
  double all = 0;
  for (const InputEffect& effect : effects.each)
    all += variance(effect, figure);
  // What is less is rounding.
  const double least = 1e-9 * effects.base(figure);
  if (all <= least * least) all = 0;
  std::vector<Doubt> doubts;
  for (const InputEffect& effect : effects.each) {
    doubts.push_back(doubt_of(effect, layers));
    doubts.back().share = all > 0 ? variance(effect, figure) / all : 0;
  }
  std::stable_sort(
      doubts.begin(), doubts.end(),
      [](const Doubt& a, const Doubt& b) { return a.share > b.share; });
  return doubts;
}

InputWidths narrowed(const InputWidths& widths, Index figure,
                     const Doubt& doubt, const InputEffects& effects,
                     const std::vector<LayerOfSteps>& layers) {
  const double gone = 1 - doubt.left * doubt.left;
  double down = effects.down(figure), up = effects.up(figure);
  for (const InputEffect& effect : effects.each) {
    if (!is_of(doubt, effect, layers)) continue;
    down -= gone * effect.down(figure);
    up -= gone * effect.up(figure);
  }
  const auto of = [](double width, double left, double all) {
    return all > 0 ? width * std::sqrt(std::max(left, 0.0) / all) : width;
  };
  return {of(widths.down, down, effects.down(figure)),
          of(widths.up, up, effects.up(figure))};
}

}  // namespace thinspot::solver
