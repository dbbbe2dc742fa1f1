#include "viz/layer_bands.hpp"

#include "mesh/digits.hpp"
#include "viz/chart_panel.hpp"
#include "viz/metal_look.hpp"
#include "viz/palette.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

namespace {

/// The value of a point by its place among the part's points.
PointValue by_index(const solver::PartResult& part,
                    const std::vector<double>& metres) {
  return [&part, metres](const solver::SurfacePoint& p) {
    return 1e6 * metres[static_cast<std::size_t>(&p - part.surface.data())];
  };
}

std::string words_for(const solver::LayerResult& layer, std::size_t part) {
  const solver::Spread& t = layer.own.parts[part].thickness.value;
  std::string text = fmt::format("{}: {} to {} \u00B5m, {} on average",
                                 layer.name, digits(t.min * 1e6),
                                 digits(t.max * 1e6), digits(t.mean * 1e6));
  if (const auto& target = layer.own.target)
    text += fmt::format("; {} wanted, {}", digits(target->wanted * 1e6),
                        target->met ? "met" : "not met");
  return text;
}

}  // namespace

std::vector<double> thickness_up_to(const solver::Result& result,
                                    std::size_t part, std::size_t count) {
  std::vector<double> sum(result.parts[part].surface.size(), 0);
  for (std::size_t l = 0; l < count; ++l)
    for (std::size_t n = 0; n < sum.size(); ++n)
      sum[n] += result.layers[l].thickness[part](static_cast<Eigen::Index>(n));
  return sum;
}

void draw_layer_bands(Svg& svg, const solver::Result& result, std::size_t part,
                      const UnrolledScale& along, const UprightScale& scale) {
  const solver::PartResult& shown = result.parts[part];
  const std::vector<Stretch> pieces = unrolled_stretches(result, shown);
  for (std::size_t l = 0; l < result.layers.size(); ++l) {
    const MetalLook look = look_of_metal(result.layers[l].metal, l);
    draw_between(svg, shown, pieces, along, scale,
                 by_index(shown, thickness_up_to(result, part, l)),
                 by_index(shown, thickness_up_to(result, part, l + 1)),
                 look.fill, look.edge);
  }
}

void add_layers(LegendColumn& legend, Svg& svg, const solver::Result& result,
                std::size_t part) {
  for (std::size_t l = result.layers.size(); l-- > 0;) {
    const MetalLook look = look_of_metal(result.layers[l].metal, l);
    legend.entry(
        [&](Point c) {
          svg.rect({c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5},
                   {.fill = look.fill, .stroke = look.edge, .width = 1.2});
        },
        words_for(result.layers[l], part));
  }
}

}  // namespace thinspot::viz
