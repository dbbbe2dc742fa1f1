#include "viz/chart_data.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {
constexpr std::size_t kMost = 400;
}

void add_chart_data(Svg& svg, const solver::PartResult& part,
                    const UnrolledScale& along, const UprightScale& scale) {
  svg.data("up", fmt::format("{:.2f} {:.2f} {:.5g} {:.5g}", scale.box.top,
                             scale.box.bottom, scale.low, scale.high));
  const std::size_t every =
      std::max<std::size_t>(1, (part.surface.size() + kMost - 1) / kMost);
  std::string places;
  for (std::size_t k = 0; k < part.surface.size(); k += every) {
    const solver::SurfacePoint& p = part.surface[k];
    places += fmt::format("{}{:.2f} {:.4f} {:.4f} {:.3f} {:.4g} {:.4g} {}",
                          places.empty() ? "" : ";", along.page(p.loop, p.arc),
                          1e3 * p.at.x(), 1e3 * p.at.y(), 1e3 * p.arc,
                          1e6 * p.thickness, 1e-2 * p.current_density, p.face);
  }
  svg.data("places", places);
}

}  // namespace thinspot::viz
