#include "viz/panel_labels.hpp"

#include "mesh/digits.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <algorithm>

namespace thinspot::viz {

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

void draw_axis_name(Svg& svg, const Frame& frame, LabelPlacer& placer) {
  const TextStyle style{.size = 11, .fill = colour::pale_ink, .halo = true};
  const Point axis = frame.page(Point(0, 0));
  for (double y = frame.area.bottom - 6; y > frame.area.top; y -= 10)
    for (const double shift : {4.0, -4.0 - text_width("axis", style)}) {
      const Point at(axis.x() + shift, y);
      if (!placer.take(text_box(at, "axis", style))) continue;
      svg.text(at, "axis", style);
      return;
    }
}

TextBox box_about(Point centre, double width, double height) {
  return {centre.x() - width / 2, centre.y() - height / 2,
          centre.x() + width / 2, centre.y() + height / 2};
}

bool on_solid(const mesh::Section& section, const Frame& frame,
              const TextBox& box) {
  for (const double x : {box.left, 0.5 * (box.left + box.right), box.right})
    for (const double y : {box.top, box.bottom}) {
      const Point p = frame.section({x, y});
      for (const mesh::PlacedSolid& solid : section.solids)
        if (mesh::contains(solid.outline, p)) return true;
    }
  return false;
}

bool meets_solid(const mesh::Section& section, const Frame& frame, Point from,
                 Point to) {
  const int pieces = 2 + static_cast<int>((to - from).norm() / 3);
  for (int k = 1; k <= pieces; ++k) {
    const Point p =
        frame.section(from + (to - from) * (static_cast<double>(k) / pieces));
    for (const mesh::PlacedSolid& solid : section.solids)
      if (mesh::contains(solid.outline, p)) return true;
  }
  return false;
}

void block_line(LabelPlacer& placer, Point from, Point to) {
  const int pieces = 1 + static_cast<int>((to - from).norm() / 4);
  for (int k = 0; k < pieces; ++k)
    placer.block(box_about(
        from + (to - from) * (static_cast<double>(k) / pieces), 4, 4));
}

void block_outline(LabelPlacer& placer, const mesh::Outline& outline,
                   const Frame& frame, bool mirrored) {
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop) {
      const int pieces =
          1 + static_cast<int>(mesh::length(c) * frame.scale / 6);
      for (int k = 0; k < pieces; ++k) {
        const Point p = mesh::point_at(c, static_cast<double>(k) / pieces);
        for (const double side : {1.0, -1.0}) {
          if (side < 0 && !mirrored) break;
          const Point at = frame.page(Point(side * p.x(), p.y()));
          if (frame.area.grown(8).holds(at))
            placer.block({at.x() - 3, at.y() - 3, at.x() + 3, at.y() + 3});
        }
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
    const std::string text = digits(line.volts) + " V";
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
