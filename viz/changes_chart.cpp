#include "viz/changes_chart.hpp"

#include "mesh/digits.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace thinspot::viz {

namespace {

using solver::Lever;

constexpr double kMargin = 12;
constexpr std::size_t kMost = 10;
constexpr double kLine = 15.5, kBar = 12, kBetween = 9;
constexpr double kFigures = 62;  ///< room for "+12 %" beyond a bar's end

std::vector<Lever> shown_levers(const solver::Plan& plan) {
  std::vector<Lever> shown;
  for (const Lever& lever : plan.levers)
    if (shown.size() < kMost && std::isfinite(lever.share) && lever.share != 0)
      shown.push_back(lever);
  return shown;
}

std::string percent(double share) {
  const std::string size = digits(100 * std::abs(share), 2);
  return (share < 0 ? "\u2212" : "+") + size + " %";
}

/// From per cent to the page: a line that all bars start at, and room for the
/// figures beyond either end.
struct Bars {
  double zero = 0, unit = 0;
};

Bars bars_for(const std::vector<Lever>& levers) {
  double most = 0, least = 0;
  for (const Lever& lever : levers) {
    most = std::max(most, lever.share);
    least = std::min(least, lever.share);
  }
  const double left = kMargin + (least < 0 ? kFigures : 0);
  const double right = narrow_width - kMargin - (most > 0 ? kFigures : 0);
  const double unit = (right - left) / (most - least);
  return {left - least * unit, unit};
}

/// Words above the bar. @returns where it ends.
double draw_lever(Svg& svg, const Lever& lever, const Bars& bars, double y) {
  const bool thicker = lever.share > 0;
  const TextStyle words{.size = 12.5};
  for (const std::string& line :
       wrapped(clean_text(lever.words), words, narrow_width - 2 * kMargin, 2)) {
    svg.text({kMargin, y + 12}, line, words);
    y += kLine;
  }
  y += 3;
  const double end = bars.zero + lever.share * bars.unit;
  PathText d;
  d.chain({{bars.zero, y}, {end, y}, {end, y + kBar}, {bars.zero, y + kBar}},
          true);
  // Told apart by side and sign; colour and hatching help.
  svg.path(d, {.fill = thicker ? std::string(colour::target)
                               : svg.hatch(colour::thin, 4),
               .stroke = thicker ? colour::target : colour::thin,
               .title = fmt::format("{}: thinnest spot {}", lever.words,
                                    percent(lever.share))});
  svg.text({end + (thicker ? 5 : -5), y + kBar - 2}, percent(lever.share),
           {.size = 12.5,
            .anchor = thicker ? Anchor::start : Anchor::end,
            .bold = true,
            .fill = thicker ? colour::target : colour::thin});
  svg.line({bars.zero, y - 2}, {bars.zero, y + kBar + 2},
           {.stroke = colour::ink, .width = 1.4});
  return y + kBar + kBetween;
}

std::string description(const std::vector<Lever>& levers) {
  if (levers.empty()) return "No small change moves the thinnest spot.";
  std::string text = "What small changes do to the thinnest spot:";
  for (const Lever& lever : levers)
    text += fmt::format(" {}: {};", lever.words, percent(lever.share));
  text.back() = '.';
  return text;
}

}  // namespace

std::string changes_chart(const solver::Plan& plan) {
  const std::vector<Lever> levers = shown_levers(plan);
  Svg svg("changes", narrow_width);
  double y = draw_head(svg, plan.drawn.content,
                       "What one small change of the drawn set-up does to its "
                       "thinnest spot.") +
             8;
  if (levers.empty()) {
    svg.text({kMargin, y + 22}, "no small change moves the thinnest spot",
             {.size = 13});
    y += 34;
  } else {
    const Bars bars = bars_for(levers);
    const TextStyle side{.size = 12.5, .fill = colour::pale_ink};
    const bool thinner = bars.zero > kMargin + kFigures / 2;
    const bool thicker =
        levers.end() != std::find_if(levers.begin(), levers.end(),
                                     [](const auto& l) { return l.share > 0; });
    TextStyle end = side;
    end.anchor = Anchor::end;
    if (thinner) svg.text({kMargin, y + 12}, "\u2190 thinner", side);
    if (thicker)
      svg.text({narrow_width - kMargin, y + 12}, "thicker \u2192", end);
    y += 24;
    for (const Lever& lever : levers) y = draw_lever(svg, lever, bars, y);
    if (plan.levers.size() > levers.size() && levers.size() == kMost) {
      svg.text({kMargin, y + 12},
               fmt::format("and {} that do less",
                           plan.levers.size() - levers.size()),
               side);
      y += 18;
    }
  }
  return svg.finish(
      y + 8, "What to change first: " + picture_title(plan.drawn.content),
      description(levers));
}

}  // namespace thinspot::viz
