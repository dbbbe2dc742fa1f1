#include "viz/section_legend.hpp"

#include "mesh/digits.hpp"
#include "viz/burn_marks.hpp"
#include "viz/layer_bands.hpp"
#include "viz/legend_column.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/section_layout.hpp"
#include "viz/solid_legend.hpp"
#include "viz/surface_marks.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

std::string in_micrometres(double metres) {
  return digits(metres * 1e6) + " \u00B5m";
}

/// A bar beside the words: how long so many micrometres are drawn.
void coating_entry(Svg& svg, LegendColumn& column, const LegendInput& in) {
  column.entry(
      [&](Point c) {
        if (in.result.layers.empty())
          svg.rect(swatch(c),
                   {.fill = colour::coating, .stroke = colour::coating_edge});
      },
      in.factor == 1 ? std::string("coating, true to scale")
      : in.factor > 1
          ? fmt::format("coating, drawn {} times too thick", digits(in.factor))
          : fmt::format("coating, drawn {} times as thick as it is",
                        digits(in.factor)));
  const double per_metre = in.factor * in.part_scale;
  const double shown = nice_below(60 / per_metre);
  const TextBox room = column.room(16);
  const double left = room.left + 32, right = left + shown * per_metre;
  const double y = room.top + 8;
  const Paint ink{.stroke = colour::ink, .width = 1.2};
  svg.line({left, y}, {right, y}, ink);
  svg.line({left, y - 4}, {left, y + 4}, ink);
  svg.line({right, y - 4}, {right, y + 4}, ink);
  svg.text({right + 7, y + 4}, in_micrometres(shown) + " of coating",
           {.size = 12});
  column.gap(4);
}

void marks_entries(Svg& svg, LegendColumn& column, const LegendInput& in,
                   bool thin) {
  const std::size_t spots = spot_count(in.result, thin);
  if (spots == 0 || in.marks.empty()) return;
  column.gap(4);
  column.heading(thin ? "Thin spots" : "Heavy spots");
  std::size_t listed = 0;
  for (const Mark& mark : in.marks) {
    if (mark.thin != thin) continue;
    ++listed;
    column.entry(
        [&](Point c) {
          draw_sign(svg, mark, c - Point(6, 0), c + Point(-6, 10));
          TextStyle style = mark_text(mark);
          style.anchor = Anchor::middle;
          svg.text(c + Point(7, 4), mark.label, style);
        },
        thickness_text(in.result, mark) + ", " + place_text(in.result, mark));
  }
  if (listed < spots)
    column.entry([](Point) {},
                 fmt::format("and {} more, not marked", spots - listed));
}

bool has_unjudged(const solver::PartResult& part) {
  return std::any_of(part.surface.begin(), part.surface.end(),
                     [](const auto& s) { return s.wetted && !s.judged; });
}

void part_column(Svg& svg, LegendColumn& column, const LegendInput& in) {
  const auto& parts = in.result.parts;
  column.heading(parts.size() > 1 ? "On the parts" : "On the part");
  coating_entry(svg, column, in);
  if (!in.result.layers.empty())
    add_layers(column, svg, in.result, shown_index(in.result));
  const auto& target = in.result.used.target.thickness;
  if (target && in.target_drawn)
    column.entry(
        [&](Point c) {
          svg.line(c - Point(12, 0), c + Point(12, 0),
                   {.stroke = colour::target, .width = 1.5, .dash = "5 3"});
        },
        "target " + in_micrometres(*target));
  else if (target)
    column.entry([](Point) {}, "target " + in_micrometres(*target) +
                                   ": too far out to be drawn");
  // Layers keep their colours everywhere.
  if (in.result.layers.empty() &&
      std::any_of(parts.begin(), parts.end(), has_unjudged))
    column.entry(
        [&](Point c) {
          svg.rect(swatch(c), {.fill = svg.hatch(colour::not_judged, 4),
                               .stroke = colour::pale_ink});
        },
        "plated too, but not judged");
  const bool contacts =
      std::any_of(parts.begin(), parts.end(), [&](const auto& part) {
        const auto bare = bare_stretches(in.result, part);
        return std::any_of(bare.begin(), bare.end(),
                           [](const auto& b) { return b.contact(); });
      });
  if (contacts)
    column.entry([&](Point c) { draw_contact_sign(svg, c); },
                 "bare: something touches the surface");
  add_burn_entries(svg, column, in.result);
  if (in.marks.empty())
    column.entry([](Point) {}, "Even: no thin or heavy spot stands out.");
  marks_entries(svg, column, in, true);
  marks_entries(svg, column, in, false);
}

/// A row of boxes with the limits between them.
void shade_scale(Svg& svg, LegendColumn& column, const SectionField& field) {
  const std::size_t n = field.shades.size();
  const TextBox room = column.room(32);
  const double cell = std::min(34.0, room.width() / static_cast<double>(n + 1));
  for (std::size_t k = 0; k <= n; ++k) {
    const double left = room.left + static_cast<double>(k) * cell;
    svg.rect({left, room.top, left + cell, room.top + 13},
             {.fill = shade_colour(k, std::max<std::size_t>(n, 1)),
              .stroke = colour::pale_ink,
              .width = 0.6});
    if (k < n)
      svg.text(
          {left + cell, room.top + 26}, digits(field.shades[k].level / 100),
          {.size = 11, .anchor = Anchor::middle, .fill = colour::pale_ink});
  }
}

void liquid_column(Svg& svg, LegendColumn& column, const LegendInput& in) {
  column.heading("In the liquid");
  if (!in.field.current_lines.empty())
    column.entry(
        [&](Point c) {
          svg.line(c - Point(12, 0), c + Point(12, 0),
                   {.stroke = colour::current, .width = 1.1});
          svg.polygon({c + Point(4, 0), c + Point(-4, 3), c + Point(-4, -3)},
                      {.fill = colour::current});
        },
        fmt::format("the current's way to the part; each line stands for "
                    "1/{} of it",
                    in.field.line_count));
  if (!in.field.equipotentials.empty())
    column.entry(
        [&](Point c) {
          svg.line(c - Point(12, 0), c + Point(12, 0),
                   {.stroke = colour::potential, .width = 0.9});
        },
        fmt::format("lines of equal voltage, {} V apart",
                    digits(in.field.volts_apart)));
  if (!in.field.shades.empty()) {
    column.gap(4);
    column.heading("Current density (A/dm\u00B2)");
    shade_scale(svg, column, in.field);
  }
  column.gap(4);
  column.heading("Solids");
  solid_entries(svg, column, scene_of(in.result));
  const auto note = [&](std::string_view words) {
    column.entry([&](Point c) { svg.circle(c, 2, {.fill = colour::pale_ink}); },
                 words);
  };
  column.gap(4);
  if (in.result.section.cut == mesh::Cut::axisymmetric)
    note("pale left half: the mirror image of the right");
  if (!in.result.used.wires.empty())
    note(in.result.parts.size() > 1
             ? "the wires that hold the parts are counted, but not drawn"
             : "the wire that holds the part is counted, but not drawn");
  if (in.names_left_out > 0)
    note(fmt::format("solids without room for a name: {}", in.names_left_out));
}

}  // namespace

double draw_section_legend(Svg& svg, const LegendInput& input, double top) {
  const double width = page_width / 2 - 18;
  LegendColumn left(svg, 12, top, width);
  part_column(svg, left, input);
  LegendColumn right(svg, page_width / 2 + 6, top, width);
  liquid_column(svg, right, input);
  return std::max(left.bottom(), right.bottom());
}

}  // namespace thinspot::viz
