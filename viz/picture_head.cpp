#include "viz/picture_head.hpp"

#include "mesh/digits.hpp"
#include "viz/palette.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

namespace {

/// "0.33 A at 1.2 V for 40 min".
std::string supplied(const solver::Result& result) {
  double seconds = 0;
  for (const auto& step : result.steps) seconds += step.duration;
  const double volts = result.cell.voltage;
  const solver::Interval& band = result.cell.voltage_band;
  std::string text = digits(result.cell.current) + " A";
  std::size_t at_work = 0;
  for (const auto& r : result.cell.rectifiers) at_work += r.current > 0;
  if (at_work > 1)
    text += fmt::format(" from {} rectifiers", at_work);
  else
    text +=
        " at " + full_digits(volts, solver::digits_worth(volts, band)) + " V";
  if (seconds > 0) text += " for " + digits(seconds / 60) + " min";
  return text;
}

}  // namespace

std::string picture_title(const solver::Case& c) {
  const std::string title = clean_text(c.title);
  return title.find_first_not_of(' ') == std::string::npos ? "Plating" : title;
}

double draw_head(Svg& svg, const std::string& title, std::string_view line) {
  const double left = 12, width = svg.width() - 2 * left;
  const TextStyle large{.size = 15, .bold = true};
  double y = 22;
  for (const std::string& piece : wrapped(clean_text(title), large, width, 2)) {
    svg.text({left, y}, piece, large);
    y += 19;
  }
  const TextStyle small{.size = 12, .fill = colour::pale_ink};
  for (const std::string& piece : wrapped(line, small, width, 2)) {
    svg.text({left, y}, piece, small);
    y += 16;
  }
  return y - 6;
}

double draw_head(Svg& svg, const solver::Case& c, std::string_view line) {
  return draw_head(svg, picture_title(c), line);
}

double draw_head(Svg& svg, const solver::Result& result,
                 std::string_view what) {
  std::string line(what);
  line += ". ";
  if (result.layers.empty()) line += supplied(result);
  std::string layers;
  for (const solver::LayerResult& layer : result.layers)
    layers += (layers.empty() ? "" : ", then ") + layer.name + " " +
              supplied(layer.own);
  if (!layers.empty() && layers[0] >= 'a' && layers[0] <= 'z')
    layers[0] = static_cast<char>(layers[0] - 'a' + 'A');
  line += layers;
  return draw_head(svg, result.used, line);
}

}  // namespace thinspot::viz
