#include "viz/thickness_chart.hpp"

#include "mesh/digits.hpp"
#include "viz/burn_marks.hpp"
#include "viz/chart_data.hpp"
#include "viz/chart_gaps.hpp"
#include "viz/chart_panel.hpp"
#include "viz/coating.hpp"
#include "viz/current_panel.hpp"
#include "viz/label_placer.hpp"
#include "viz/layer_bands.hpp"
#include "viz/legend_column.hpp"
#include "viz/marks.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/rack_strip.hpp"
#include "viz/section_layout.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

constexpr double left = 48;
constexpr double right_notes = 160;  ///< room for words right of the panels
constexpr double right = page_width - right_notes;
constexpr double thickness_height = 210;
constexpr double current_height = 90;

std::size_t index_of(const solver::Result& result, const PartResult& part) {
  return static_cast<std::size_t>(&part - result.parts.data());
}

/// "least 8.9 um" and, where it is uncertain, "(7.5 to 9.8)" below.
SideNote value_note(const std::string& word, double metres,
                    const solver::Interval& band, const char* colour) {
  const int count = solver::digits_worth(metres, band);
  const auto number = [&](double value) {
    return full_digits(micrometres(value), count);
  };
  const std::string text = micrometre_text(metres, count);
  SideNote note{micrometres(metres),
                is_hardly_any(metres) ? std::vector{word, text}
                                      : std::vector{word + " " + text},
                colour,
                false,
                {micrometres(band.low), micrometres(band.high)}};
  if (!is_hardly_any(metres) && number(band.low) != number(band.high))
    note.lines.push_back(
        fmt::format("({} to {})", number(band.low), number(band.high)));
  return note;
}

/// Up to what thickness the chart goes [um]: every copy, all that is judged,
/// the bands as far as they are not out of all proportion, the target
/// likewise.
double highest_thickness(const solver::Result& result, const PartResult& part,
                         const std::optional<double>& target) {
  double most = 0;
  for (const PartResult& copy : result.parts)
    most = std::max(most, copy.thickness.value.max);
  double high = std::max(
      1.08 * most, std::min(1.03 * part.thickness.max_band.high, 1.6 * most));
  if (target && 1.08 * *target < 2.5 * high)
    high = std::max(high, 1.08 * *target);
  constexpr double least = 5e-8;  // below, the curve is as good as zero
  return micrometres(std::max(high, least));
}

void draw_spots(Svg& svg, const solver::Result& result, const PartResult& part,
                const UnrolledScale& along, const UprightScale& scale,
                const std::vector<TextBox>& taken) {
  // A sign at either end may stand half outside.
  LabelPlacer placer(
      TextBox{left - 7, scale.box.top - 4, right + 7, scale.box.bottom});
  for (const TextBox& box : taken) placer.block(box);
  for (const Mark& mark : marks_of(result)) {
    if (&result.parts[mark.part] != &part) continue;
    const auto nearest =
        std::min_element(part.surface.begin(), part.surface.end(),
                         [&](const SurfacePoint& a, const SurfacePoint& b) {
                           return (a.at - mark.spot.at).squaredNorm() <
                                  (b.at - mark.spot.at).squaredNorm();
                         });
    if (nearest == part.surface.end()) return;
    const Point foot(along.page(nearest->loop, mark.spot.arc),
                     std::clamp(scale.page(micrometres(mark.spot.thickness)),
                                scale.box.top, scale.box.bottom));
    TextStyle style = mark_text(mark);
    style.halo = true;
    const double width = sign_size + 3 + text_width(mark.label, style);
    // Above the curve or below it, its number left or right of it.
    for (double out = 8; out < 90; out += 4) {
      bool done = false;
      for (const double way : {-1.0, 1.0})
        for (const double side : {1.0, -1.0}) {
          if (done) break;
          const Point sign = foot + Point(0, way * out);
          const Point centre = sign + Point(side * (width - sign_size) / 2, 0);
          const TextBox box{centre.x() - width / 2 - 1, centre.y() - 7,
                            centre.x() + width / 2 + 1, centre.y() + 7};
          if (!placer.take(box)) continue;
          if (out > 8)
            svg.line(foot, sign, {.stroke = style.fill, .width = 0.8});
          draw_sign(svg, mark, sign, foot);
          style.anchor = side > 0 ? Anchor::start : Anchor::end;
          svg.text(sign + Point(side * (sign_size / 2 + 3), 4.2), mark.label,
                   style);
          done = true;
        }
      if (done) break;
    }
  }
}

bool has_band(const PartResult& part) {
  return std::any_of(part.surface.begin(), part.surface.end(),
                     [](const SurfacePoint& p) {
                       return p.thickness_band.high > p.thickness_band.low;
                     });
}

/// Of every point of the surface, over the coating and behind its curve.
void draw_band(Svg& svg, const solver::Result& result, const PartResult& part,
               const UnrolledScale& along, const UprightScale& scale) {
  if (!has_band(part)) return;
  const std::vector<Stretch> pieces = unrolled_stretches(result, part);
  svg.open_group(1, "band");
  draw_thickness_band(svg, part, pieces, along, scale, colour::coating_edge);
  svg.close_group();
}

void draw_thickness(Svg& svg, const solver::Result& result,
                    const PartResult& part, const UnrolledScale& along,
                    const UprightScale& scale) {
  draw_upright_axis(svg, scale, "Thickness (\u00B5m)", 6);
  const PointValue value = [](const SurfacePoint& s) {
    return micrometres(s.thickness);
  };
  for (const PartResult& copy : result.parts)
    if (&copy != &part)
      draw_pale_curve(svg, copy, unrolled_stretches(result, copy), along, scale,
                      value);
  if (result.layers.empty())
    draw_curve(svg, part, unrolled_stretches(result, part), along, scale, value,
               colour::coating, colour::coating_edge);
  else
    draw_layer_bands(svg, result, index_of(result, part), along, scale);
  draw_band(svg, result, part, along, scale);
  const auto& t = part.thickness;
  std::vector<SideNote> notes{
      value_note("largest", t.value.max, t.max_band, colour::heavy),
      value_note("mean", t.value.mean, t.mean_band, colour::ink),
      value_note("least", t.value.min, t.min_band, colour::thin)};
  const auto& target = result.used.target.thickness;
  if (target) {
    const double wanted = micrometres(*target);
    const std::string words = "target " + digits(wanted) + " \u00B5m";
    if (wanted <= scale.high) {
      const double y = scale.page(wanted);
      svg.line({left, y}, {right, y},
               {.stroke = colour::target, .width = 1.8, .dash = "7 4"});
      notes.push_back({wanted, {words}, colour::target, true, {}});
    } else {
      notes.push_back(
          {scale.high, {words, "(not shown)"}, colour::target, true, {}});
    }
  }
  draw_side_notes(svg, scale, notes, page_width - 6);
}

double draw_legend(Svg& svg, const solver::Result& result,
                   const PartResult& part, const std::vector<ChartGap>& narrow,
                   double top) {
  if (!result.layers.empty()) {
    LegendColumn layers(svg, 12, top, page_width - 24);
    add_layers(layers, svg, result, index_of(result, part));
    top = layers.bottom();
  }
  const double width = page_width / 2 - 18;
  LegendColumn one(svg, 12, top, width);
  LegendColumn two(svg, page_width / 2 + 6, top, width);
  const auto sign = [&](bool thin) {
    return [&svg, thin](Point c) {
      draw_sign(svg, {{}, thin, ""}, c, c + Point(0, 10));
    };
  };
  if (!marks_of(result).empty()) {
    one.entry(sign(true), "thin spot, numbered as in the section");
    one.entry(sign(false), "heavy spot, numbered likewise");
  }
  if (part.thickness.mean_band.high > part.thickness.mean_band.low)
    two.entry(
        [&](Point c) {
          const Paint ink{.stroke = colour::ink, .width = 1.5};
          svg.line(c - Point(0, 7), c + Point(0, 7), ink);
          svg.line(c + Point(-3, -7), c + Point(3, -7), ink);
          svg.line(c + Point(-3, 7), c + Point(3, 7), ink);
          svg.circle(c, 2.4, {.fill = colour::ink});
        },
        "where the true value lies in 95 of 100 cases like this");
  if (has_band(part))
    two.entry([&](Point c) { strip_swatch(svg, c, colour::coating_edge); },
              "the same at every place: inputs and section, not the mesh");
  if (std::any_of(part.surface.begin(), part.surface.end(),
                  [](const auto& s) { return s.wetted && !s.judged; }))
    two.entry(
        [&](Point c) {
          const bool bands = !result.layers.empty();
          svg.rect({c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5},
                   {.fill = bands ? "none" : svg.hatch(colour::not_judged, 4),
                    .stroke = colour::pale_ink,
                    .dash = "4 3"});
        },
        result.layers.empty() ? "plated too, but not judged"
                              : "paler: plated too, but not judged");
  if (result.parts.size() > 1)
    two.entry(
        [&](Point c) {
          svg.line(c - Point(12, 0), c + Point(12, 0),
                   {.stroke = colour::other_copy, .width = 1});
        },
        "the other parts on the rack");
  add_burn_entries(svg, two, result);
  const auto gap_sign = [&](Point c) { shade_swatch(svg, c); };
  constexpr std::size_t most = 8;
  for (std::size_t k = 0; k < std::min(most, narrow.size()); ++k)
    one.entry(gap_sign,
              fmt::format("{} to {} mm: {}", digits(narrow[k].from * 1e3),
                          digits(narrow[k].to * 1e3), narrow[k].why));
  if (narrow.size() > most)
    one.entry(gap_sign,
              fmt::format("and {} more bare places", narrow.size() - most));
  return std::max(one.bottom(), two.bottom());
}

}  // namespace

std::string thickness_chart(const solver::Result& result) {
  // 1. Scales.
  const PartResult& part = shown_part(result);
  const bool rack = result.parts.size() > 1;
  Svg svg("thickness", page_width);
  const double head =
      draw_head(svg, result,
                rack ? "Coating along the surface of " + part.name +
                           ", which has the thinnest spot, unrolled"
                     : "Coating along the surface of the part, unrolled");
  const UnrolledScale along(result, part, left, right);
  const std::vector<FaceRun> runs = face_runs(part, along);
  const std::vector<ChartGap> gaps = chart_gaps(result, part, along);
  const double top = head + 30;
  const UprightScale thickness{
      {left, top, right, top + thickness_height},
      0,
      highest_thickness(result, part, result.used.target.thickness)};
  const double second = top + thickness_height + 36;
  const UprightScale current{{left, second, right, second + current_height},
                             0,
                             highest_current(part, result.used.target)};

  // 2. Panels.
  for (const TextBox& box : {thickness.box, current.box})
    shade_gaps(svg, gaps, box);
  draw_thickness(svg, result, part, along, thickness);
  draw_current(svg, result, part, along, current);
  for (const TextBox& box : {thickness.box, current.box}) {
    draw_separators(svg, runs, box.top, box.bottom);
    draw_box(svg, along, box);
  }
  draw_burns(svg, result, part, along, current.box);
  std::vector<TextBox> taken;
  const std::vector<ChartGap> narrow =
      label_gaps(svg, gaps, thickness.box, taken);
  draw_spots(svg, result, part, along, thickness, taken);

  // 3. Words below.
  const double axis = draw_along_axis(svg, part, along, runs,
                                      current.box.bottom, page_width - 8);
  const TextStyle small{.size = 12, .fill = colour::pale_ink};
  svg.text({12, axis + 16},
           "From the part's lowest point counter-clockwise, as the section "
           "shows it.",
           small);
  const double strip = draw_rack_strip(svg, result, left, right, axis + 24);
  const double bottom = draw_legend(svg, result, part, narrow, strip + 6);
  add_chart_data(svg, part, along, thickness);
  return svg.finish(
      bottom + 8, picture_title(result.used),
      fmt::format("Thickness of the coating along the part's surface: least "
                  "{} \u00B5m, mean {} \u00B5m, largest {} \u00B5m.",
                  digits(micrometres(part.thickness.value.min)),
                  digits(micrometres(part.thickness.value.mean)),
                  digits(micrometres(part.thickness.value.max))));
}

}  // namespace thinspot::viz
