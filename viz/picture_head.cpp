#include "viz/picture_head.hpp"

#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

std::string picture_title(const solver::Case& c) {
  const std::string title = clean_text(c.title);
  return title.find_first_not_of(' ') == std::string::npos ? "Plating" : title;
}

double draw_head(Svg& svg, const solver::Case& c, std::string_view line) {
  const double left = 12, width = svg.width() - 2 * left;
  const TextStyle title{.size = 15, .bold = true};
  double y = 22;
  for (const std::string& piece : wrapped(picture_title(c), title, width, 2)) {
    svg.text({left, y}, piece, title);
    y += 19;
  }
  const TextStyle small{.size = 12, .fill = colour::pale_ink};
  for (const std::string& piece : wrapped(line, small, width, 2)) {
    svg.text({left, y}, piece, small);
    y += 16;
  }
  return y - 6;
}

double draw_head(Svg& svg, const solver::Result& result,
                 std::string_view what) {
  double seconds = 0;
  for (const auto& step : result.steps) seconds += step.duration;
  const double volts = result.cell.voltage;
  const solver::Interval& band = result.cell.voltage_band;
  std::string line(what);
  line += ". " + significant(result.cell.current) + " A";
  std::size_t at_work = 0;
  for (const auto& r : result.cell.rectifiers) at_work += r.current > 0;
  if (at_work > 1)
    line += fmt::format(" from {} rectifiers", at_work);
  else
    line += " at " +
            significant(volts, digits_worth(volts, band.low, band.high), true) +
            " V";
  if (seconds > 0) line += " for " + significant(seconds / 60) + " min";
  return draw_head(svg, result.used, line);
}

}  // namespace thinspot::viz
