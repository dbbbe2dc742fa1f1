#include "viz/chart_panel.hpp"

#include "viz/coating.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr double note_line = 14;
constexpr double fine = 0.15;
constexpr double kStripOpacity = 0.25;

std::vector<Point> curve_points(const solver::PartResult& part,
                                const Stretch& stretch,
                                const UnrolledScale& along,
                                const UprightScale& scale,
                                const PointValue& value) {
  std::vector<Point> curve;
  for (std::size_t k = 0; k < stretch.points.size(); ++k) {
    const solver::SurfacePoint& s = part.surface[stretch.points[k]];
    const bool end = k > 0 && stretch.points[k] <= stretch.points[k - 1];
    const double x = end ? along.loops()[static_cast<std::size_t>(s.loop)].right
                         : along.page(s.loop, s.arc);
    // Far above the panel is as good as endless, and short to write.
    curve.emplace_back(x, std::max(scale.page(value(s)), scale.box.top - 50));
  }
  return simplified(curve, fine);
}

/// From one curve's beginning to its end and back along the other.
std::vector<Point> around(const std::vector<Point>& lower,
                          const std::vector<Point>& upper) {
  std::vector<Point> points = upper;
  points.insert(points.end(), lower.rbegin(), lower.rend());
  return points;
}

}  // namespace

void draw_upright_axis(Svg& svg, const UprightScale& scale,
                       const std::string& name, int count) {
  const TextBox& box = scale.box;
  const TextStyle number{
      .size = 11, .anchor = Anchor::end, .fill = colour::pale_ink};
  svg.text({box.left - 34, box.top - 9}, name, {.size = 12, .bold = true});
  for (const Tick& t : ticks(scale.low, scale.high, count)) {
    const double y = scale.page(t.value);
    svg.line({box.left, y}, {box.right, y}, {.stroke = colour::grid});
    svg.text({box.left - 6, y + 4}, t.label, number);
  }
}

void draw_curve(Svg& svg, const solver::PartResult& part,
                const std::vector<Stretch>& pieces, const UnrolledScale& along,
                const UprightScale& scale, const PointValue& value,
                const std::string& fill, const std::string& stroke) {
  const std::string clip = svg.clip(scale.box);
  const std::string hatch = svg.hatch(colour::not_judged, 4);
  for (const Stretch& stretch : pieces) {
    const std::vector<Point> curve =
        curve_points(part, stretch, along, scale, value);
    PathText line, area;
    line.chain(curve, false);
    std::vector<Point> under = curve;
    const double base = scale.page(std::max(0.0, scale.low));
    under.insert(under.begin(), {curve.front().x(), base});
    under.emplace_back(curve.back().x(), base);
    area.chain(under, true);
    svg.path(area, {.fill = stretch.judged ? fill : hatch,
                    .opacity = stretch.judged ? 0.3 : 0.8,
                    .clip = clip});
    svg.path(line, {.stroke = stretch.judged ? stroke : colour::pale_ink,
                    .width = stretch.judged ? 2.0 : 1.4,
                    .dash = stretch.judged ? "" : "4 3",
                    .clip = clip});
  }
}

void draw_between(Svg& svg, const solver::PartResult& part,
                  const std::vector<Stretch>& pieces,
                  const UnrolledScale& along, const UprightScale& scale,
                  const PointValue& lower, const PointValue& upper,
                  const std::string& fill, const std::string& stroke) {
  const std::string clip = svg.clip(scale.box);
  for (const Stretch& stretch : pieces) {
    const std::vector<Point> top =
        curve_points(part, stretch, along, scale, upper);
    PathText line, area;
    line.chain(top, false);
    area.chain(around(curve_points(part, stretch, along, scale, lower), top),
               true);
    svg.path(
        area,
        {.fill = fill, .opacity = stretch.judged ? 0.9 : 0.4, .clip = clip});
    svg.path(line, {.stroke = stroke,
                    .width = stretch.judged ? 1.8 : 1.2,
                    .dash = stretch.judged ? "" : "4 3",
                    .clip = clip});
  }
}

void draw_strip(Svg& svg, const solver::PartResult& part,
                const std::vector<Stretch>& pieces, const UnrolledScale& along,
                const UprightScale& scale, const PointValue& lower,
                const PointValue& upper, const std::string& fill) {
  PathText area;
  for (const Stretch& stretch : pieces)
    area.chain(around(curve_points(part, stretch, along, scale, lower),
                      curve_points(part, stretch, along, scale, upper)),
               true);
  svg.path(
      area,
      {.fill = fill, .opacity = kStripOpacity, .clip = svg.clip(scale.box)});
}

void draw_thickness_band(Svg& svg, const solver::PartResult& part,
                         const std::vector<Stretch>& pieces,
                         const UnrolledScale& along, const UprightScale& scale,
                         const std::string& fill) {
  draw_strip(
      svg, part, pieces, along, scale,
      [](const auto& p) { return micrometres(p.thickness_band.low); },
      [](const auto& p) { return micrometres(p.thickness_band.high); }, fill);
}

void strip_swatch(Svg& svg, Point centre, const std::string& fill) {
  const Point half(11, 5);
  const Point from = centre - half, to = centre + half;
  svg.rect({from.x(), from.y(), to.x(), to.y()},
           {.fill = fill, .opacity = kStripOpacity});
}

void coating_swatch(Svg& svg, Point centre) {
  svg.rect({centre.x() - 11, centre.y() - 4, centre.x() + 11, centre.y() + 6},
           {.fill = colour::coating, .opacity = 0.3});
  svg.line(centre + Point(-11, -4), centre + Point(11, -4),
           {.stroke = colour::coating_edge, .width = 2});
}

void draw_line(Svg& svg, const solver::PartResult& part,
               const std::vector<Stretch>& pieces, const UnrolledScale& along,
               const UprightScale& scale, const PointValue& value,
               Paint paint) {
  PathText line;
  for (const Stretch& stretch : pieces)
    line.chain(curve_points(part, stretch, along, scale, value), false);
  paint.clip = svg.clip(scale.box);
  svg.path(line, paint);
}

void draw_pale_curve(Svg& svg, const solver::PartResult& part,
                     const std::vector<Stretch>& pieces,
                     const UnrolledScale& along, const UprightScale& scale,
                     const PointValue& value) {
  draw_line(svg, part, pieces, along, scale, value,
            {.stroke = colour::other_copy, .width = 1});
}

void draw_separators(Svg& svg, const std::vector<FaceRun>& runs, double top,
                     double bottom) {
  for (const FaceRun& run : runs)
    if (!run.starts_loop)
      svg.line({run.left, top}, {run.left, bottom},
               {.stroke = colour::pale_ink, .width = 0.7, .dash = "1 3"});
}

void draw_box(Svg& svg, const UnrolledScale& along, const TextBox& box) {
  for (const auto& loop : along.loops())
    if (loop.length > 0)
      svg.rect({loop.left, box.top, loop.right, box.bottom},
               {.stroke = colour::pale_ink, .width = 0.8});
}

void draw_side_notes(Svg& svg, const UprightScale& scale,
                     const std::vector<SideNote>& notes, double right) {
  const TextBox& box = scale.box;
  std::size_t most_lines = 1;
  std::vector<double> wanted;
  for (const SideNote& n : notes) {
    most_lines = std::max(most_lines, n.lines.size());
    wanted.push_back(std::clamp(scale.page(n.value), box.top, box.bottom));
  }
  const double height = note_line * static_cast<double>(most_lines) + 3;
  const double room = height * static_cast<double>(notes.size());
  const std::vector<double> centres = spread_apart(
      wanted, height, std::min(box.top - 6, box.bottom - room), box.bottom + 6);
  const double left = box.right + 42;
  // Bars of higher notes stand further right, out of the others' lines.
  double bar = box.right + 8;
  for (const SideNote& n : notes)
    if (n.band.high > n.band.low) bar += 8;
  for (std::size_t k = 0; k < notes.size(); ++k) {
    const SideNote& n = notes[k];
    const TextStyle style{.size = 12, .bold = n.bold, .fill = n.colour};
    double from = box.right + 2;
    if (n.band.high > n.band.low) {
      bar -= 8;
      const Paint ink{.stroke = n.colour, .width = 1.5};
      const double low =
          std::clamp(scale.page(n.band.low), box.top, box.bottom);
      const double high =
          std::clamp(scale.page(n.band.high), box.top, box.bottom);
      svg.line({bar, low}, {bar, high}, ink);
      svg.line({bar - 2.5, low}, {bar + 2.5, low}, ink);
      svg.line({bar - 2.5, high}, {bar + 2.5, high}, ink);
      svg.circle({bar, wanted[k]}, 2.4, {.fill = n.colour});
      from = bar + 4;
    }
    svg.line({from, wanted[k]}, {left - 4, centres[k]},
             {.stroke = n.colour, .width = 0.8});
    const double lines = static_cast<double>(n.lines.size());
    double y = centres[k] - note_line * lines / 2 + 11;
    for (const std::string& line : n.lines) {
      svg.text({left, y}, shortened(line, style, right - left), style);
      y += note_line;
    }
  }
}

double draw_along_axis(Svg& svg, const solver::PartResult& part,
                       const UnrolledScale& along,
                       const std::vector<FaceRun>& runs, double top,
                       double right) {
  const TextStyle number{
      .size = 11, .anchor = Anchor::middle, .fill = colour::pale_ink};
  LabelPlacer row({0, top, right, top + 20});
  double end = 0;
  for (const auto& loop : along.loops()) {
    if (loop.length == 0) continue;
    end = std::max(end, loop.right);
    const int count =
        std::max(1, static_cast<int>((loop.right - loop.left) / 45));
    for (const Tick& t : ticks(0, loop.length * 1e3, count)) {
      const double x =
          loop.left + t.value * 1e-3 / loop.length * (loop.right - loop.left);
      svg.line({x, top}, {x, top + 4}, {.stroke = colour::pale_ink});
      if (row.take(text_box({x, top + 15}, t.label, number).grown(1)))
        svg.text({x, top + 15}, t.label, number);
    }
  }
  const Point unit(end + 22, top + 15);
  svg.text(unit, "mm", {.size = 11, .fill = colour::pale_ink});

  // Names in as many rows as it takes to keep them apart.
  const TextStyle name{.size = 12, .anchor = Anchor::middle};
  constexpr double row_height = 16;
  constexpr int most_rows = 5;
  LabelPlacer rows({0, top, right, top + 24 + most_rows * row_height});
  const double names_top = top + 24;
  double bottom = names_top;
  for (const FaceRun& run : runs) {
    const std::string text = shortened(
        clean_text(part.faces[static_cast<std::size_t>(run.face)].name), name,
        160);
    const double middle = 0.5 * (run.left + run.right);
    const double half = text_width(text, name) / 2 + 5;
    const double x = std::clamp(middle, half, right - half);
    for (int k = 0; k < most_rows; ++k) {
      const double y = names_top + k * row_height;
      const TextBox box{x - half, y, x + half, y + row_height - 1};
      const TextBox lead{middle - 1, names_top - 4, middle + 1, y};
      if (!rows.free(box) || (k > 0 && !rows.free(lead))) continue;
      rows.block(box);
      if (k > 0) rows.block(lead);
      svg.line({middle, names_top - 5}, {middle, y + 2},
               {.stroke = colour::pale_ink, .width = 0.8});
      svg.text({x, y + 13}, text, name);
      bottom = std::max(bottom, y + row_height);
      break;
    }
  }
  return bottom;
}

}  // namespace thinspot::viz
