#include "viz/panel.hpp"

#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

using mesh::Cut;
using mesh::Section;

/// Lines need not be truer than this on the page.
constexpr double fine = 0.25;

PathText chains_path(const std::vector<Chain>& chains, const Frame& frame,
                     bool closed) {
  PathText d;
  for (const Chain& chain : chains)
    d.chain(simplified(frame.page(chain), fine, closed), closed);
  return d;
}

/// The walls lie around the liquid; an open tank's go on above it.
void draw_walls(Svg& svg, const Section& section, const Frame& frame,
                const std::string& clip) {
  const Paint wall{
      .stroke = colour::wall, .width = 2 * wall_width, .clip = clip};
  if (section.cut == Cut::plan) {
    svg.path(outline_path(section.liquid_bounds, frame), wall);
    return;
  }
  const mesh::Box liquid = mesh::bounding_box(section.liquid_bounds);
  const bool round = section.cut == Cut::axisymmetric;
  const double left = round ? -liquid.high.x() : liquid.low.x();
  const double top = std::max(section.tank.height, liquid.high.y());
  const std::vector<Point> inner{
      frame.page(Point(left, top)), frame.page(Point(left, liquid.low.y())),
      frame.page(Point(liquid.high.x(), liquid.low.y())),
      frame.page(Point(liquid.high.x(), top))};
  PathText d;
  d.chain(inner, false);
  svg.path(d, wall);
  svg.polygon(inner, {.fill = "#fff", .clip = clip});  // the air above
}

void draw_solids(Svg& svg, const Section& section, const Frame& frame,
                 const std::string& clip, bool mirrored) {
  const std::string hatch = svg.hatch("#46522f", 6);
  for (const mesh::PlacedSolid& solid : section.solids) {
    const PathText d = outline_path(solid.outline, frame, mirrored);
    svg.path(d, {.fill = role_colour(solid.spec.role),
                 .stroke = colour::ink,
                 .width = 0.8,
                 .clip = clip});
    if (solid.spec.role == mesh::Role::shield)
      svg.path(d, {.fill = hatch, .clip = clip});
  }
}

void draw_mirrored_half(Svg& svg, const Section& section, const Frame& frame) {
  const std::string clip = svg.clip(left_of_axis(frame));
  svg.open_group(0.5, "mirror image");
  svg.path(outline_path(section.liquid_bounds, frame, true),
           {.fill = colour::mirrored_liquid, .clip = clip});
  draw_solids(svg, section, frame, clip, true);
  svg.close_group();
}

/// A small head in the middle of what the panel shows of the line, pointing
/// along the current: against the chain, which runs upstream.
void draw_arrow(Svg& svg, const Chain& line, const Frame& frame,
                const std::string& clip) {
  std::vector<std::size_t> shown;
  for (std::size_t k = 0; k + 1 < line.size(); ++k)
    if (inside(frame.model, line[k])) shown.push_back(k);
  if (shown.size() < 4) return;
  // The middle by length: points crowd where elements are small.
  double whole = 0, run = 0;
  for (const std::size_t k : shown) whole += (line[k + 1] - line[k]).norm();
  for (const std::size_t k : shown) {
    const Point step = line[k + 1] - line[k];
    run += step.norm();
    if (run < 0.5 * whole || step.norm() == 0) continue;
    const Point tip = frame.page(line[k]);
    const Point back = (frame.page(line[k + 1]) - tip).normalized();
    const Point across(-back.y(), back.x());
    svg.polygon({tip - 3.5 * back, tip + 3.5 * back + 2.6 * across,
                 tip + 3.5 * back - 2.6 * across},
                {.fill = colour::current, .clip = clip});
    return;
  }
}

void draw_field(Svg& svg, const SectionField& field, const Frame& frame,
                const std::string& clip) {
  for (std::size_t k = 0; k < field.shades.size(); ++k)
    svg.path(chains_path(field.shades[k].region, frame, true),
             {.fill = shade_colour(k + 1, field.shades.size()), .clip = clip});
  for (const auto& line : field.equipotentials)
    svg.path(chains_path(line.chains, frame, false),
             {.stroke = colour::potential, .width = 0.7, .clip = clip});
  svg.path(
      chains_path(field.current_lines, frame, false),
      {.stroke = colour::current, .width = 0.9, .opacity = 0.75, .clip = clip});
  for (std::size_t k = 0; k < field.current_lines.size(); k += 2)
    draw_arrow(svg, field.current_lines[k], frame, clip);
}

/// The liquid's surface with the draughtsman's triangle on it.
void draw_level(Svg& svg, const Section& section, const Frame& frame,
                const std::string& clip) {
  const mesh::Box liquid = mesh::bounding_box(section.liquid_bounds);
  const bool round = section.cut == Cut::axisymmetric;
  const Point right = frame.page(liquid.high);
  const Point left(
      frame.page(Point(round ? -liquid.high.x() : liquid.low.x(), 0)).x(),
      right.y());
  svg.line(left, right,
           {.stroke = colour::potential, .width = 1.2, .clip = clip});
  const Point tip(right.x() - 12, right.y() - 1);
  svg.polygon({tip, tip + Point(-4.5, -7), tip + Point(4.5, -7)},
              {.fill = "#fff", .stroke = colour::potential, .clip = clip});
}

}  // namespace

void draw_panel(Svg& svg, const solver::Result& result,
                const SectionField& field, const Frame& frame, double walls) {
  const Section& section = result.section;
  const bool round = section.cut == Cut::axisymmetric;
  const std::string clip = svg.clip(frame.area.grown(walls));
  // Solids on the axis are whole; the field is of the right half alone.
  const std::string half = round ? svg.clip(right_of_axis(frame)) : clip;
  draw_walls(svg, section, frame, clip);
  if (round) draw_mirrored_half(svg, section, frame);
  svg.path(outline_path(section.liquid_bounds, frame),
           {.fill = shade_colour(0, 1), .clip = half});
  draw_field(svg, field, frame, half);
  draw_solids(svg, section, frame, half, false);
  if (round) {
    const double x = frame.page(Point(0, 0)).x();
    svg.line({x, frame.area.top}, {x, frame.area.bottom},
             {.stroke = colour::ink, .width = 0.9, .dash = "12 3 2 3"});
  }
  if (section.cut != Cut::plan) draw_level(svg, section, frame, clip);
}

void draw_axes(Svg& svg, const Frame& frame, bool from_axis,
               LabelPlacer& placer) {
  const TextBox& a = frame.area;
  const Paint line{.stroke = colour::pale_ink, .width = 0.8};
  const TextStyle below{
      .size = 11, .anchor = Anchor::middle, .fill = colour::pale_ink};
  TextStyle beside = below;
  beside.anchor = Anchor::end;
  const auto put = [&](Point at, const std::string& text,
                       const TextStyle& style) {
    if (!placer.take(text_box(at, text, style).grown(2))) return false;
    svg.text(at, text, style);
    return true;
  };
  const double base = a.bottom + 20, edge = a.left - 10;
  put({a.right - 8, base}, "mm", below);
  put({edge, a.top + 8}, "mm", beside);
  const int across = std::max(2, static_cast<int>(a.width() / 48));
  for (const Tick& t :
       ticks(frame.model.low.x() * 1e3, frame.model.high.x() * 1e3, across)) {
    const double x = frame.page(Point(t.value * 1e-3, 0)).x();
    const bool sign = from_axis && t.label.front() == '-';
    if (put({x, base}, sign ? t.label.substr(1) : t.label, below))
      svg.line({x, a.bottom + 5}, {x, a.bottom + 9}, line);
  }
  const int up = std::max(2, static_cast<int>(a.height() / 44));
  for (const Tick& t :
       ticks(frame.model.low.y() * 1e3, frame.model.high.y() * 1e3, up)) {
    const double y = frame.page(Point(0, t.value * 1e-3)).y();
    if (put({edge - 2, y + 4}, t.label, beside))
      svg.line({a.left - 9, y}, {a.left - 5, y}, line);
  }
}

void label_level(Svg& svg, const Section& section, const Frame& frame,
                 LabelPlacer& placer) {
  const TextStyle style{
      .size = 11, .anchor = Anchor::end, .fill = colour::potential};
  const mesh::Box liquid = mesh::bounding_box(section.liquid_bounds);
  const Point right = frame.page(liquid.high) + Point(-20, -4);
  for (double aside = 0; aside < frame.area.width() - 80; aside += 8) {
    const Point at = right - Point(aside, 0);
    const TextBox box = text_box(at, "liquid level", style);
    if (box.top < frame.area.top || box.left < frame.area.left) return;
    if (!placer.take(box.grown(2))) continue;
    svg.text(at, "liquid level", style);
    return;
  }
}

void block_outline(LabelPlacer& placer, const mesh::Outline& outline,
                   const Frame& frame) {
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop) {
      const int pieces =
          1 + static_cast<int>(mesh::length(c) * frame.scale / 6);
      for (int k = 0; k < pieces; ++k) {
        const Point p =
            frame.page(mesh::point_at(c, static_cast<double>(k) / pieces));
        placer.block({p.x() - 3, p.y() - 3, p.x() + 3, p.y() + 3});
      }
    }
}

void label_equipotentials(Svg& svg, const SectionField& field,
                          const Frame& frame, LabelPlacer& placer) {
  const TextStyle style{.size = 11,
                        .anchor = Anchor::middle,
                        .fill = colour::potential,
                        .halo = true};
  const LabelPlacer within(frame.area);
  const std::size_t every = field.equipotentials.size() > 6 ? 2 : 1;
  for (std::size_t k = 0; k < field.equipotentials.size(); k += every) {
    const auto& line = field.equipotentials[k];
    const std::string text = significant(line.volts) + " V";
    bool done = false;
    for (const Chain& chain : line.chains)
      for (int k_try = 0; k_try <= 80 && !done && !chain.empty(); ++k_try) {
        // From the middle outwards in either direction.
        const double share = 0.5 + (k_try % 2 == 0 ? 0.5 : -0.5) * k_try / 80.0;
        const Point p = frame.page(chain[static_cast<std::size_t>(
                            share * static_cast<double>(chain.size() - 1))]) +
                        Point(0, 4);
        const TextBox box = text_box(p, text, style).grown(2);
        if (!within.free(box) || !placer.take(box)) continue;
        svg.text(p, text, style);
        done = true;
      }
  }
}

}  // namespace thinspot::viz
