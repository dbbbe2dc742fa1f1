#include "viz/panel.hpp"

#include "mesh/digits.hpp"
#include "viz/palette.hpp"
#include "viz/solid_look.hpp"
#include "viz/surface_marks.hpp"
#include "viz/tank_drawing.hpp"

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

void draw_solids(Svg& svg, const Scene& scene, const Frame& frame,
                 const std::string& clip, bool mirrored) {
  const Section& section = scene.section;
  for (std::size_t k = 0; k < section.solids.size(); ++k) {
    const mesh::Outline& outline = section.solids[k].outline;
    draw_solid(svg, outline_path(outline, frame, mirrored),
               kind_of(section, scene.used, k), clip);
    draw_lacquer(svg, outline, frame, clip, mirrored);
  }
}

void draw_mirrored_half(Svg& svg, const Scene& scene, const Frame& frame) {
  const std::string clip = svg.clip(left_of_axis(frame));
  svg.open_group(0.5, "mirror image");
  svg.path(outline_path(scene.section.liquid_bounds, frame, true),
           {.fill = colour::mirrored_liquid, .clip = clip});
  draw_solids(svg, scene, frame, clip, true);
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

/// "0.5 to 1 A/dm2" for a shade; 0 is what lies below all of them.
std::string shade_title(const SectionField& field, std::size_t k) {
  const auto level = [&](std::size_t n) {
    return digits(1e-2 * field.shades[n].level);
  };
  if (field.shades.empty()) return "";
  if (k == 0) return "under " + level(0) + " A/dm\u00B2 in the liquid";
  if (k == field.shades.size())
    return "over " + level(k - 1) + " A/dm\u00B2 in the liquid";
  return level(k - 1) + " to " + level(k) + " A/dm\u00B2 in the liquid";
}

void draw_field(Svg& svg, const SectionField& field, const Frame& frame,
                const std::string& clip) {
  for (std::size_t k = 0; k < field.shades.size(); ++k)
    svg.path(chains_path(field.shades[k].region, frame, true),
             {.fill = shade_colour(k + 1, field.shades.size()),
              .clip = clip,
              .title = shade_title(field, k + 1)});
  for (const auto& line : field.equipotentials)
    svg.path(chains_path(line.chains, frame, false),
             {.stroke = colour::potential,
              .width = 0.7,
              .clip = clip,
              .title = digits(line.volts) + " V"});
  svg.path(
      chains_path(field.current_lines, frame, false),
      {.stroke = colour::current, .width = 0.9, .opacity = 0.75, .clip = clip});
  for (std::size_t k = 0; k < field.current_lines.size(); k += 2)
    draw_arrow(svg, field.current_lines[k], frame, clip);
}

}  // namespace

void draw_panel(Svg& svg, const Scene& scene, const SectionField* field,
                const Frame& frame, double walls) {
  const Section& section = scene.section;
  const bool round = section.cut == Cut::axisymmetric;
  const std::string clip = svg.clip(frame.area.grown(walls));
  // Solids on the axis are whole; the field is of the right half alone.
  const std::string half = round ? svg.clip(right_of_axis(frame)) : clip;
  draw_tank(svg, section, frame, clip);
  if (round) draw_mirrored_half(svg, scene, frame);
  svg.path(outline_path(section.liquid_bounds, frame),
           {.fill = shade_colour(0, 1),
            .clip = half,
            .title = field ? shade_title(*field, 0) : ""});
  if (field != nullptr) draw_field(svg, *field, frame, half);
  draw_level(svg, section, frame, clip);
  draw_solids(svg, scene, frame, half, false);
  if (round) {
    const double x = frame.page(Point(0, 0)).x();
    svg.line({x, frame.area.top}, {x, frame.area.bottom},
             {.stroke = colour::ink, .width = 0.9, .dash = "12 3 2 3"});
  }
}

}  // namespace thinspot::viz
