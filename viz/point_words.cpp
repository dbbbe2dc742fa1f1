#include "viz/point_words.hpp"

#include "mesh/digits.hpp"
#include "viz/numbers.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

std::string point_words(const SurfaceData& s, Eigen::Index k) {
  const std::string place = fmt::format(
      "{}, {} mm along its outline (x {}, y {} mm)",
      s.face_names[static_cast<std::size_t>(s.face(k))], digits(s.arc(k)),
      short_number(s.points(0, k)), short_number(s.points(1, k)));
  if (s.wetted(k) != 1) return "dry or lacquered, no coating  \u00B7  " + place;
  return fmt::format("{} \u00B5m  \u00B7  {} A/dm\u00B2  \u00B7  {}",
                     digits(s.thickness(k)), digits(s.current_density(k)),
                     place);
}

}  // namespace thinspot::viz
