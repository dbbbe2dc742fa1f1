#include "viz/marks.hpp"

#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

const solver::PartResult& shown_part(const solver::Result& result) {
  return result.parts.front();
}

std::vector<Mark> marks_of(const solver::PartResult& part, std::size_t each) {
  constexpr double even = 0.03;
  const solver::Spread& t = part.thickness.value;
  std::vector<Mark> result;
  if (t.max - t.min < even * t.mean) return result;
  for (std::size_t k = 0; k < std::min(each, part.thin_spots.size()); ++k)
    result.push_back({part.thin_spots[k], true, fmt::format("{}", k + 1)});
  for (std::size_t k = 0; k < std::min(each, part.heavy_spots.size()); ++k)
    result.push_back({part.heavy_spots[k], false,
                      std::string(1, static_cast<char>('A' + k))});
  return result;
}

std::string thickness_text(const solver::PartResult& part, const Mark& mark) {
  const solver::Interval& band =
      mark.thin ? part.thickness.min_band : part.thickness.max_band;
  const double value =
      mark.thin ? part.thickness.value.min : part.thickness.value.max;
  return micrometre_text(mark.spot.thickness,
                         digits_worth(value, band.low, band.high));
}

void draw_sign(Svg& svg, const Mark& mark, Point centre, Point tip) {
  const double r = sign_size / 2;
  const Paint paint{.fill = mark.thin ? colour::thin : colour::heavy,
                    .stroke = "#fff"};
  if (!mark.thin) {
    svg.rect({centre.x() - r, centre.y() - r, centre.x() + r, centre.y() + r},
             paint);
    return;
  }
  Point way = tip - centre;
  way = way.norm() > 1e-9 ? Point(way.normalized()) : Point(0, 1);
  const Point across(-way.y(), way.x());
  svg.polygon({centre + 1.2 * r * way, centre - r * way + 1.2 * r * across,
               centre - r * way - 1.2 * r * across},
              paint);
}

TextStyle mark_text(const Mark& mark) {
  return {.size = 12,
          .bold = true,
          .fill = mark.thin ? colour::thin : colour::heavy};
}

}  // namespace thinspot::viz
