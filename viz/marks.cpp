#include "viz/marks.hpp"

#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

const std::vector<solver::Spot>& spots_of(const solver::PartResult& part,
                                          bool thin) {
  return thin ? part.thin_spots : part.heavy_spots;
}

/// Equal copies differ by rounding: what is nearer than this is no difference.
constexpr double kEqual = 1e-6;

void add_marks(const solver::Result& result, bool thin, std::size_t each,
               std::vector<Mark>& marks) {
  std::vector<Mark> found;
  for (std::size_t p = 0; p < result.parts.size(); ++p)
    for (const solver::Spot& spot : spots_of(result.parts[p], thin))
      found.push_back({spot, thin, "", p});
  std::stable_sort(found.begin(), found.end(),
                   [&](const Mark& a, const Mark& b) {
                     const double x = a.spot.thickness, y = b.spot.thickness;
                     return thin ? x < y : x > y;
                   });
  if (found.size() > each) found.resize(each);
  for (std::size_t k = 0; k < found.size(); ++k) {
    found[k].label = fmt::format("{}", k + 1);
    marks.push_back(found[k]);
  }
}

}  // namespace

std::size_t shown_index(const solver::Result& result) {
  std::size_t least = 0;
  for (std::size_t p = 1; p < result.parts.size(); ++p)
    if (result.parts[p].thickness.value.min <
        result.parts[least].thickness.value.min * (1 - kEqual))
      least = p;
  return least;
}

const solver::PartResult& shown_part(const solver::Result& result) {
  return result.parts[shown_index(result)];
}

std::vector<Mark> marks_of(const solver::Result& result, std::size_t each) {
  constexpr double even = 0.03;
  double least = result.parts.front().thickness.value.min;
  double most = result.parts.front().thickness.value.max;
  for (const solver::PartResult& part : result.parts) {
    least = std::min(least, part.thickness.value.min);
    most = std::max(most, part.thickness.value.max);
  }
  std::vector<Mark> marks;
  if (most - least < even * shown_part(result).thickness.value.mean)
    return marks;
  add_marks(result, true, each, marks);
  add_marks(result, false, each, marks);
  return marks;
}

std::size_t spot_count(const solver::Result& result, bool thin) {
  std::size_t count = 0;
  for (const solver::PartResult& part : result.parts)
    count += spots_of(part, thin).size();
  return count;
}

std::string thickness_text(const solver::Result& result, const Mark& mark) {
  const solver::BandedSpread& t = result.parts[mark.part].thickness;
  const solver::Interval& band = mark.thin ? t.min_band : t.max_band;
  const double value = mark.thin ? t.value.min : t.value.max;
  return micrometre_text(mark.spot.thickness,
                         solver::digits_worth(value, band));
}

std::string place_text(const solver::Result& result, const Mark& mark) {
  return result.parts.size() > 1
             ? result.parts[mark.part].name + ", " + mark.spot.where
             : mark.spot.where;
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
