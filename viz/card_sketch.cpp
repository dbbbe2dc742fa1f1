#include "viz/card_sketch.hpp"

#include "mesh/digits.hpp"
#include "solver/step_case.hpp"
#include "solver/step_view.hpp"
#include "viz/dimensions.hpp"
#include "viz/face_tags.hpp"
#include "viz/marks.hpp"
#include "viz/panel_labels.hpp"
#include "viz/placings.hpp"
#include "viz/scene.hpp"
#include "viz/section_layout.hpp"
#include "viz/solid_look.hpp"
#include "viz/solid_names.hpp"
#include "viz/surface_marks.hpp"
#include "viz/tank_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace thinspot::viz {

namespace {

using mesh::Role;

constexpr double kRow = 16;      ///< of names above the tank
constexpr double kAround = 48;   ///< the part in its close-up, letters, sizes
constexpr double kBetween = 22;  ///< tank and close-up
constexpr double kHeading = 16;  ///< of the close-up
constexpr int kMostRows = 4;
constexpr double kSmallest = 9.4;  ///< letters
/// Share of the room's width for a tank that has a close-up beside it.
constexpr double kTankShare = 0.56;

const std::vector<Role> kMeasured = {Role::anode, Role::thief, Role::shield};

/// The first step, unless a later one in the same tank has more anodes in it:
/// what is lifted out has to find its place again.
std::size_t sketched_step(const solver::Result& result) {
  std::size_t best = 0;
  for (std::size_t k = 1; k < result.steps.size(); ++k)
    if (result.steps[k].layer == result.steps[0].layer &&
        result.steps[k].lifted.size() < result.steps[best].lifted.size())
      best = k;
  return best;
}

/// As all stands in that step.
struct Sketched {
  explicit Sketched(const solver::Result& result)
      : step(sketched_step(result)),
        view(solver::after_step(result, step)),
        used(solver::case_of_step(result.layers.empty()
                                      ? result.used
                                      : result.layers.front().own.used,
                                  step)),
        part(view.parts[shown_index(result)]) {}
  Scene scene() const { return {view.section, used, part.solid}; }

  std::size_t step;
  solver::Result view;
  solver::Case used;
  const solver::PartResult& part;
};

struct Layout {
  Frame tank;
  std::optional<Frame> close_up;
};

double fit(const Point& size, double width, double height) {
  return std::min(width / size.x(), height / size.y());
}

/// @param rows  of names above the tank
Layout layout_in(const TextBox& room, const Scene& scene, int rows) {
  const mesh::Box tank = tank_box(scene.section);
  const mesh::Box part = solid_box(scene.section, scene.shown);
  const double top = room.top + rows * kRow + 8 + wall_width;
  const double height = room.bottom - top - wall_width;
  const double width = room.width() - 2 * wall_width;
  const double alone = fit(tank.size(), width, height);
  const double tank_width = kTankShare * width;
  const double close_width = width - tank_width - kBetween;
  const double close_height = room.height() - kHeading;
  const double close =
      fit(part.size(), close_width - 2 * kAround, close_height - 2 * kAround);
  const double share = (part.size().array() / tank.size().array()).maxCoeff();
  const bool small = share < 0.5 && close > 1.3 * alone;
  // The close-up has the rest: names need room over a narrow tank too.
  const double scale = small ? fit(tank.size(), tank_width, height) : alone;
  const double taken = std::max(scale * tank.size().x(), 0.46 * width);
  const double panel = small ? taken : width;
  const double left =
      room.left + wall_width + 0.5 * (panel - scale * tank.size().x());
  Layout layout{frame_at(left, top, tank, scale), {}};
  if (!small) return layout;
  const double start = room.left + 2 * wall_width + panel + kBetween;
  const double most = fit(part.size(), room.right - start - 2 * kAround,
                          close_height - 2 * kAround);
  const Point half = 0.5 * Point(room.right - start, close_height) / most;
  layout.close_up =
      frame_at(start, room.top + kHeading,
               {part.centre() - half, part.centre() + half}, most);
  return layout;
}

void draw_solids(Svg& svg, const Scene& scene, const Frame& frame,
                 const std::string& clip, bool mirrored) {
  for (std::size_t k = 0; k < scene.section.solids.size(); ++k) {
    const mesh::Outline& outline = scene.section.solids[k].outline;
    draw_solid_in_black(svg, outline_path(outline, frame, mirrored),
                        kind_of(scene.section, scene.used, k), clip);
    draw_lacquer(svg, outline, frame, clip, mirrored);
  }
}

void draw_panel_in_black(Svg& svg, const Scene& scene, const Frame& frame,
                         double walls) {
  const std::string clip = svg.clip(frame.area.grown(walls));
  draw_tank(svg, scene.section, frame, clip);
  draw_level(svg, scene.section, frame, clip);
  if (scene.round()) {
    svg.open_group(0.4, "mirror image");
    draw_solids(svg, scene, frame, svg.clip(left_of_axis(frame)), true);
    svg.close_group();
    const double x = frame.page(Point(0, 0)).x();
    svg.line({x, frame.area.top}, {x, frame.area.bottom},
             {.stroke = "#000", .width = 0.8, .dash = "12 3 2 3"});
  }
  draw_solids(svg, scene, frame,
              scene.round() ? svg.clip(right_of_axis(frame)) : clip, false);
}

/// Where a line down from the top meets an outline first [m].
std::optional<double> top_at(const mesh::Outline& outline, double x) {
  std::optional<double> top;
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop)
      for (int i = 0; i < 32; ++i) {
        const Point a = mesh::point_at(c, i / 32.0);
        const Point b = mesh::point_at(c, (i + 1) / 32.0);
        if ((a.x() < x) == (b.x() < x)) continue;
        const double share = (x - a.x()) / (b.x() - a.x());
        const double y = a.y() + share * (b.y() - a.y());
        if (!top || y > *top) top = y;
      }
  return top;
}

bool shows_wires(const Scene& scene) {
  return scene.section.cut != mesh::Cut::plan && !scene.used.wires.empty();
}

/// From each part up to the next thing or out of the tank: wires are not
/// solids, but hands hold them.
void draw_wires(Svg& svg, const Scene& scene, const Frame& frame,
                LabelPlacer& labels) {
  const mesh::Section& section = scene.section;
  if (!shows_wires(scene)) return;
  for (const mesh::PlacedSolid& part : section.solids) {
    if (part.spec.role != Role::part) continue;
    // Just beside the middle, where an axisymmetric outline ends.
    const mesh::Box box = mesh::bounding_box(part.outline);
    const double x = scene.round() ? 1e-6 * box.size().x() : box.centre().x();
    const std::optional<double> foot = top_at(part.outline, x);
    if (!foot) continue;
    double end = frame.model.high.y();
    for (const mesh::PlacedSolid& other : section.solids) {
      if (&other == &part) continue;
      const mesh::Box above = mesh::bounding_box(other.outline);
      if (above.low.x() <= x && x <= above.high.x() && above.low.y() >= *foot)
        end = std::min(end, above.low.y());
    }
    const Point low = frame.page(Point(x, *foot));
    const Point high = frame.page(Point(x, end));
    if (high.y() >= low.y()) continue;
    svg.line(low, high, {.stroke = "#000", .width = 1.8});
    block_line(labels, low, high);
    if (end < frame.model.high.y()) continue;
    const Point pole = high + Point(0, 7);
    draw_pole(svg, pole, '-');
    labels.block(box_about(pole, 14, 14));
  }
}

SolidNames names_over(const TextBox& room, const Scene& scene,
                      const Layout& layout, int rows) {
  const double right =
      layout.close_up ? layout.close_up->area.left - 6 : room.right;
  return {scene.section,
          layout.tank,
          room.left,
          right,
          {.most_rows = rows, .poles = true, .wired = shows_wires(scene)}};
}

/// Fewest rows that take all the names that four would.
int rows_for(const TextBox& room, const Scene& scene) {
  const auto placed = [&](int rows) {
    return names_over(room, scene, layout_in(room, scene, rows), rows)
        .in_rows();
  };
  const std::size_t most = placed(kMostRows);
  for (int rows = 1; rows < kMostRows; ++rows)
    if (placed(rows) >= most) return rows;
  return kMostRows;
}

void draw_close_up_frame(Svg& svg, const Layout& layout) {
  const Frame& close = *layout.close_up;
  const Point low = layout.tank.page(close.model.low);
  const Point high = layout.tank.page(close.model.high);
  const TextBox& all = layout.tank.area;
  svg.rect({std::max(low.x(), all.left), std::max(high.y(), all.top),
            std::min(high.x(), all.right), std::min(low.y(), all.bottom)},
           {.stroke = "#000", .width = 0.8, .dash = "2 3"});
  svg.rect(close.area, {.stroke = "#000", .width = 0.8});
  svg.text({close.area.right, close.area.top - 5},
           fmt::format("The part, {} times larger",
                       digits(close.scale / layout.tank.scale, 2)),
           {.size = 11, .anchor = Anchor::end, .fill = "#000"});
}

/// What finds no room beside its line stands in words below the sketch.
void draw_distances(Svg& svg, const Scene& scene, const Frame& tank,
                    const std::optional<Frame>& close_up,
                    const std::vector<FaceTag>& tags,
                    const std::vector<TextBox>& name_lines,
                    LabelPlacer& labels) {
  DrawnDimensions drawn;
  DimensionManner manner{.near = true, .drawn = &drawn};
  for (const FaceTag& tag : tags) manner.kept_free.push_back(tag.room());
  DimensionManner small = manner;
  small.size = kSmallest;
  for (const Dimension& d : free_distances(scene, kMeasured))
    if (!draw_dimension(svg, scene.section, d, tank, labels, manner) &&
        !draw_dimension(svg, scene.section, d, tank, labels, small) && close_up)
      draw_dimension(svg, scene.section, d, *close_up, labels, small);
  // Upright ones would run along the lines of the names.
  DimensionManner upright = manner;
  upright.kept_free.insert(upright.kept_free.end(), name_lines.begin(),
                           name_lines.end());
  draw_depth_of_part(svg, scene, tank, labels, upright);
  DimensionManner placing = upright;
  placing.size = kSmallest;
  draw_placings(svg, scene, placings(scene), tank, labels, placing);
  draw_depth_of_liquid(svg, scene, tank, labels, upright);
  manner.near = false;
  draw_size(svg, scene, close_up ? *close_up : tank, labels, manner);
}

std::vector<std::string> distances(const Scene& scene) {
  std::vector<std::string> found;
  std::size_t k = 0;
  const std::vector<Dimension> lengths = free_distances(scene, kMeasured);
  for (const mesh::PlacedSolid& solid : scene.section.solids)
    if (std::find(kMeasured.begin(), kMeasured.end(), solid.spec.role) !=
        kMeasured.end())
      found.push_back(name_with_role(solid.spec) + " " + lengths[k++].text);
  return found;
}

/// "sheet (anode) 35 mm; liquid 100 mm deep".
std::string tank_in_words(const Scene& scene) {
  std::string words = fmt::format("{}", fmt::join(distances(scene), ", "));
  const Point size = mesh::bounding_box(scene.section.liquid_bounds).size();
  if (scene.section.cut != mesh::Cut::plan)
    words += (words.empty() ? "" : "; ") +
             fmt::format("liquid {} deep", millimetres(size.y()));
  return words;
}

std::string places_in_words(const Scene& scene) {
  const std::string places = in_words(scene, placings(scene));
  return places.empty() ? "" : "Places: " + places + ".";
}

/// First step of each later layer.
std::vector<std::string> other_tanks(const solver::Result& result, bool brief) {
  std::vector<std::string> notes;
  if (result.layers.empty()) return notes;
  const Sketched sketched(result);
  const auto told = [&](const Scene& scene) {
    return tank_in_words(scene) + "." +
           (brief ? "" : " " + places_in_words(scene));
  };
  const std::string known = told(sketched.scene());
  for (std::size_t l = 1; l < result.layers.size(); ++l) {
    const solver::LayerResult& layer = result.layers[l];
    const mesh::Section& section = layer.own.section;
    const Scene scene = scene_of(layer.own.used, section);
    const std::string words = told(scene);
    notes.push_back(words == known
                        ? "The " + layer.name + " tank has the same distances."
                        : "In the " + layer.name + " tank: " + words);
  }
  return notes;
}

}  // namespace

void draw_card_sketch(Svg& svg, const solver::Result& result,
                      const TextBox& room) {
  const Sketched sketched(result);
  const Scene scene = sketched.scene();
  const int rows = rows_for(room, scene);
  const Layout layout = layout_in(room, scene, rows);
  const Frame& part_frame = layout.close_up ? *layout.close_up : layout.tank;
  const SolidNames names = names_over(room, scene, layout, rows);
  LabelPlacer labels(room);
  draw_panel_in_black(svg, scene, layout.tank, wall_width);
  names.block_lines(labels, layout.tank);
  for (const auto& solid : scene.section.solids)
    block_outline(labels, solid.outline, layout.tank, scene.round());
  block_outline(labels, tank_inside(scene.section), layout.tank);
  if (layout.close_up) {
    draw_panel_in_black(svg, scene, *layout.close_up, 0);
    for (const auto& solid : scene.section.solids)
      block_outline(labels, solid.outline, *layout.close_up, scene.round());
    draw_close_up_frame(svg, layout);
  }
  names.draw(svg, layout.tank);
  draw_wires(svg, scene, layout.tank, labels);
  const std::vector<FaceTag> tags =
      face_tags(scene.section, sketched.part, part_frame, labels);
  draw_distances(svg, scene, layout.tank, layout.close_up, tags,
                 names.lines(layout.tank), labels);
  draw_face_tags(svg, tags);
  std::vector<Frame> frames{layout.tank};
  if (layout.close_up) frames.push_back(*layout.close_up);
  names.draw_inside(svg, scene.section, frames, labels);
  label_level(svg, scene.section, layout.tank, labels);
}

std::vector<std::string> sketch_notes(const solver::Result& result,
                                      bool brief) {
  const Sketched sketched(result);
  const Scene scene = sketched.scene();
  std::string key = "Faces: " + face_key(sketched.part) + ".";
  if (is_rack(scene.section)) key += " The same on each part.";
  if (has_lacquer(scene.section)) key += " Bricks: stop-off lacquer.";
  if (sketched.step > 0)
    key += fmt::format(" The sketch shows step {}.", sketched.step + 1);
  std::vector<std::string> notes{
      key, "Free distances: " + tank_in_words(scene) + "."};
  const std::string places = places_in_words(scene);
  if (!places.empty()) notes.push_back(places);
  for (std::string& note : other_tanks(result, brief))
    notes.push_back(std::move(note));
  return notes;
}

}  // namespace thinspot::viz
