#include "solver/section_band.hpp"

#include "solver/wagner.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

std::optional<DiscRatios> section_error_in(const Schedule& s,
                                           const LayerOfSteps& layer,
                                           std::size_t part) {
  const Certified& solved = *s.steps[layer.end_phase - 1].solved;
  const Model& model = solved.model;
  const Surface& surface = model.surfaces[part];
  const double wagner =
      wagner_of(model, layer.used, solved.outcome.point, surface).number;
  return section_error(
      model.section, model.response.electrodes().each[surface.electrode].solid,
      wagner);
}

std::optional<DiscRatios> section_error_of_all(
    const Schedule& s, const std::vector<LayerOfSteps>& layers,
    std::size_t part) {
  if (!section_error_in(s, layers.back(), part)) return std::nullopt;
  std::vector<double> volume;
  double all = 0;
  for (const LayerOfSteps& layer : layers) {
    volume.push_back(0);
    for (std::size_t k = layer.first_phase; k < layer.end_phase; ++k)
      volume.back() +=
          s.steps[k].growth * s.steps[k].solved->outcome.parts[part].current;
    all += volume.back();
  }
  DiscRatios sum{0, 0};
  for (std::size_t l = 0; l < layers.size(); ++l) {
    const DiscRatios own =
        section_error_in(s, layers[l], part).value_or(DiscRatios{});
    const double share = layers.size() > 1 ? volume[l] / all : 1;
    sum.least += share * own.least;
    sum.largest += share * own.largest;
  }
  return sum;
}

double ratio_at(const DiscRatios& ratios, const Spread& thickness,
                double here) {
  const double span = thickness.max - thickness.min;
  const double place =
      span > 0 ? std::clamp((here - thickness.min) / span, 0.0, 1.0) : 0;
  return ratios.least + place * (ratios.largest - ratios.least);
}

double down_with(double down, double value, double ratio) {
  return std::hypot(down, value * (1 - ratio));
}

void stretch_low(Interval& band, double ratio, double value) {
  const double low = std::min(band.low, value);
  band.low = std::max(0.0, value - down_with(value - low, value, ratio));
}

}  // namespace thinspot::solver
