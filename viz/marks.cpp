#include "viz/marks.hpp"

#include "viz/palette.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

const solver::PartResult& shown_part(const solver::Result& result) {
  return *std::min_element(result.parts.begin(), result.parts.end(),
                           [](const auto& a, const auto& b) {
                             return a.thickness.value.min <
                                    b.thickness.value.min;
                           });
}

std::vector<Mark> marks_of(const solver::PartResult& part, std::size_t each) {
  std::vector<Mark> result;
  for (std::size_t k = 0; k < std::min(each, part.thin_spots.size()); ++k)
    result.push_back({part.thin_spots[k], true, fmt::format("{}", k + 1)});
  for (std::size_t k = 0; k < std::min(each, part.heavy_spots.size()); ++k)
    result.push_back({part.heavy_spots[k], false,
                      std::string(1, static_cast<char>('A' + k))});
  return result;
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
