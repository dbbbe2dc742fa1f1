#include "viz/solid_names.hpp"

#include "viz/palette.hpp"
#include "viz/panel_labels.hpp"
#include "viz/scene.hpp"
#include "viz/section_layout.hpp"
#include "viz/solid_look.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace thinspot::viz {

namespace {

constexpr double row_height = 16;
constexpr double widest = 170;

TextStyle name_style() { return {.size = 12, .anchor = Anchor::middle}; }

/// The highest point of an outline near the given x, within the frame.
Point top_near(const mesh::Outline& outline, double x, const Frame& frame) {
  Point best(x, 0);
  double score = std::numeric_limits<double>::lowest();
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop)
      for (int k = 0; k <= 64; ++k) {
        const Point p = mesh::point_at(c, k / 64.0);
        // Aside counts much more than low.
        const double s = p.y() - 30 * std::abs(p.x() - x);
        if (s <= score) continue;
        score = s;
        best = p;
      }
  best.y() = std::min(best.y(), frame.model.high.y());
  return best;
}

/// Whether a line straight up from a point meets another solid.
bool is_covered(const mesh::Section& section, std::size_t solid,
                const Point& p) {
  for (std::size_t k = 0; k < section.solids.size(); ++k) {
    if (k == solid) continue;
    for (const mesh::Loop& loop : section.solids[k].outline.loops)
      for (const mesh::Curve& c : loop)
        for (int i = 0; i < 16; ++i) {
          const Point a = mesh::point_at(c, i / 16.0);
          const Point b = mesh::point_at(c, (i + 1) / 16.0);
          if ((a.x() < p.x()) == (b.x() < p.x())) continue;
          const double share = (p.x() - a.x()) / (b.x() - a.x());
          if (a.y() + share * (b.y() - a.y()) > p.y()) return true;
        }
  }
  return false;
}

/// Where a name's line may end: in the middle first. None where something
/// is always in its way.
std::vector<Point> ends_on(const mesh::Section& section, std::size_t solid,
                           const Frame& frame) {
  const mesh::Box box = solid_box(section, solid);
  const double left = std::max(box.low.x(), frame.model.low.x());
  const double right = std::min(box.high.x(), frame.model.high.x());
  std::vector<Point> ends;
  for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) {
    const Point end = top_near(section.solids[solid].outline,
                               left + share * (right - left), frame);
    if (!is_covered(section, solid, end)) ends.push_back(end);
  }
  return ends;
}

/// One name stands for the clips of all copies; empty: none of its own.
std::string name_of(const mesh::Solid& solid) {
  if (solid.copy == 0 || solid.role != mesh::Role::clip)
    return name_with_role(solid);
  if (solid.copy > 1) return "";
  mesh::Solid one = solid;
  if (one.name.ends_with(" 1")) one.name.resize(one.name.size() - 2);
  return name_with_role(one) + ", one a part";
}

/// Whether a straight line runs over a solid other than its own.
bool crosses_solid(const mesh::Section& section, std::size_t own,
                   const Point& from, const Point& to) {
  for (int k = 0; k <= 24; ++k) {
    const Point p = from + (to - from) * (k / 24.0);
    for (std::size_t i = 0; i < section.solids.size(); ++i)
      if (i != own && mesh::contains(section.solids[i].outline, p)) return true;
  }
  return false;
}

/// Ways from a box to its neighbours, below first.
constexpr std::array<std::array<double, 2>, 8> ways = {
    {{0, 1}, {0, -1}, {1, 0}, {-1, 0}, {1, 1}, {-1, 1}, {1, -1}, {-1, -1}}};

bool place_beside(Svg& svg, const mesh::Section& section, std::size_t solid,
                  const std::string& text, const Frame& tank,
                  LabelPlacer& placer) {
  const mesh::Box box = solid_box(section, solid);
  const mesh::Outline& outline = section.solids[solid].outline;
  TextStyle style = name_style();
  style.halo = true;
  const double width = text_width(text, style) + 4;
  constexpr double height = 15;
  const Point low = tank.page(box.low), high = tank.page(box.high);
  const TextBox on_page{
      std::max(low.x(), tank.area.left), std::max(high.y(), tank.area.top),
      std::min(high.x(), tank.area.right), std::min(low.y(), tank.area.bottom)};
  if (on_page.right <= on_page.left || on_page.bottom <= on_page.top)
    return false;  // not in this frame
  const Point middle(0.5 * (on_page.left + on_page.right),
                     0.5 * (on_page.top + on_page.bottom));
  const LabelPlacer within(tank.area.grown(-1));
  for (double out = 3; out < 80; out += 4)
    for (const auto& [x, y] : ways) {
      const Point centre =
          middle + Point(x * (on_page.width() / 2 + out + width / 2),
                         y * (on_page.height() / 2 + out + height / 2));
      const TextBox room = box_about(centre, width, height);
      if (!within.free(room) || !placer.free(room)) continue;
      if (on_solid(section, tank, room)) continue;
      const Point foot = mesh::nearest(outline, tank.section(centre)).at;
      const Point edge(std::clamp(tank.page(foot).x(), room.left, room.right),
                       std::clamp(tank.page(foot).y(), room.top, room.bottom));
      if (crosses_solid(section, solid, foot, tank.section(edge))) continue;
      placer.block(room);
      if (out > 8 || (tank.page(foot) - edge).norm() > 10) {
        svg.line(edge, tank.page(foot), {.stroke = colour::ink, .width = 0.7});
        svg.circle(tank.page(foot), 2,
                   {.fill = colour::ink, .stroke = "#fff", .width = 0.6});
        block_line(placer, edge, tank.page(foot));
      }
      svg.text(centre + Point(0, 4), text, style);
      return true;
    }
  return false;
}

/// '+' for an anode, '-' for what holds the part and for a thief, ' ' for what
/// no lead goes to.
char pole_of(const mesh::Section& section, const mesh::Solid& solid,
             const NameManner& manner) {
  if (!manner.poles) return ' ';
  switch (solid.role) {
    case mesh::Role::anode: return '+';
    case mesh::Role::clip:
    case mesh::Role::thief: return '-';
    case mesh::Role::shield:
    case mesh::Role::floating: return ' ';
    case mesh::Role::part: break;
  }
  const bool clipped = std::any_of(
      section.solids.begin(), section.solids.end(),
      [](const auto& s) { return s.spec.role == mesh::Role::clip; });
  return clipped || manner.wired ? ' ' : '-';
}

/// Pole of a solid whose name has no line to it, at its highest point.
void draw_lone_pole(Svg& svg, const mesh::Section& section, std::size_t solid,
                    char pole, const Frame& tank, LabelPlacer& placer) {
  const mesh::Box box = solid_box(section, solid);
  const Point at = tank.page(
      top_near(section.solids[solid].outline, box.centre().x(), tank));
  draw_pole(svg, at, pole);
  placer.block(box_about(at, 14, 14));
}

}  // namespace

std::string name_with_role(const mesh::Solid& solid) {
  const std::string role = role_word(solid.role);
  const std::string name = clean_text(solid.name);
  if (role.empty() || name.find(role) != std::string::npos) return name;
  return name.empty() ? role : name + " (" + role + ")";
}

void draw_pole(Svg& svg, Point centre, char pole) {
  svg.circle(centre, 6, {.fill = "#fff", .stroke = "#000", .width = 1.2});
  const Paint bar{.stroke = "#000", .width = 1.6};
  svg.line(centre - Point(3.5, 0), centre + Point(3.5, 0), bar);
  if (pole == '+')
    svg.line(centre - Point(0, 3.5), centre + Point(0, 3.5), bar);
}

SolidNames::SolidNames(const mesh::Section& section, const Frame& tank,
                       double left, double right, const NameManner& manner)
    : left_(left), right_(right), most_rows_(manner.most_rows) {
  std::vector<Name> names;
  const bool rack = is_rack(section);
  for (std::size_t k = 0; k < section.solids.size(); ++k) {
    const mesh::Solid& solid = section.solids[k].spec;
    const std::string whole = name_of(solid);
    if (whole.empty()) continue;
    const char pole = pole_of(section, solid, manner);
    const std::string text = shortened((pole == '+'   ? "+ "
                                        : pole == '-' ? "\u2212 "
                                                      : "") +
                                           whole,
                                       name_style(), widest);
    std::vector<Point> ends = ends_on(section, k, tank);
    if (ends.empty() || (rack && solid.role == mesh::Role::part))
      inside_.push_back({text, k, pole});
    else
      names.push_back({text, k, pole, std::move(ends)});
  }
  std::stable_sort(names.begin(), names.end(),
                   [](const Name& a, const Name& b) {
                     return a.ends.front().x() < b.ends.front().x();
                   });
  names_ = placed(names, tank, Manner::centred);
  // A crowd finds more room in stairs; they look less at ease.
  if (names_.size() < names.size()) {
    std::vector<Name> stairs = placed(names, tank, Manner::stairs);
    if (stairs.size() > names_.size()) names_ = std::move(stairs);
  }
  for (const Name& name : names)
    if (std::none_of(names_.begin(), names_.end(), [&](const Name& other) {
          return other.solid == name.solid;
        }))
      inside_.push_back({name.text, name.solid, name.pole});
  for (const Name& name : names_) rows_ = std::max(rows_, name.row + 1);
}

std::vector<SolidNames::Name> SolidNames::placed(std::vector<Name> names,
                                                 const Frame& tank,
                                                 Manner manner) const {
  // Rows are counted upwards from the tank at y = 0 here.
  std::vector<TextBox> taken;
  std::vector<Name> found;
  if (manner == Manner::stairs) {
    // From the middle of the tank outwards, so that each line passes outside
    // of the names below its own.
    const double middle = 0.5 * (tank.model.low.x() + tank.model.high.x());
    std::stable_sort(names.begin(), names.end(),
                     [&](const Name& a, const Name& b) {
                       return std::abs(a.ends.front().x() - middle) <
                              std::abs(b.ends.front().x() - middle);
                     });
  }
  for (Name& name : names)
    if (place(name, tank, manner, taken)) found.push_back(name);
  return found;
}

bool SolidNames::place(Name& name, const Frame& tank, Manner manner,
                       std::vector<TextBox>& taken) const {
  const double width = text_width(name.text, name_style()) + 8;
  const auto is_free = [&](const TextBox& box) {
    return std::none_of(taken.begin(), taken.end(), [&](const TextBox& other) {
      return overlap(box, other);
    });
  };
  const double middle = tank.area.left + 0.5 * tank.area.width();
  for (int row = 0; row < most_rows_; ++row)
    for (const Point& end : name.ends) {
      const double x = tank.page(end).x();
      // In stairs the text reaches from its line towards the middle.
      const double inwards = (x < middle ? 0.5 : -0.5) * (width - 10);
      const std::vector<double> shifts =
          manner == Manner::stairs
              ? std::vector<double>{inwards}
              : std::vector<double>{0, -0.35 * width, 0.35 * width,
                                    -0.48 * width, 0.48 * width};
      for (const double shift : shifts) {
        const double centre =
            std::clamp(x + shift, left_ + width / 2,
                       std::max(left_ + width / 2, right_ - width / 2));
        const double y = -row * row_height;
        const TextBox text{centre - width / 2, y - row_height + 0.5,
                           centre + width / 2, y - 0.5};
        const double line_x = std::clamp(x, text.left + 5, text.right - 5);
        const TextBox line{std::min(x, line_x) - 2, y, std::max(x, line_x) + 2,
                           2};
        if (!is_free(text) || !is_free(line)) continue;
        taken.push_back(text);
        taken.push_back(line);
        name.end = end;
        name.centre = centre;
        name.row = row;
        name.line_x = line_x;
        return true;
      }
    }
  return false;
}

double SolidNames::height() const { return rows_ * row_height + 6; }

void SolidNames::draw(Svg& svg, const Frame& tank) const {
  for (const Name& name : names_) {
    const double base = tank.area.top - 8 - name.row * row_height;
    const Point end = tank.page(name.end);
    svg.line({name.line_x, base + 4}, end,
             {.stroke = colour::ink, .width = 0.7});
    if (name.pole != ' ')
      draw_pole(svg, end, name.pole);
    else
      svg.circle(end, 2, {.fill = colour::ink, .stroke = "#fff", .width = 0.6});
    svg.text({name.centre, base}, name.text, name_style());
  }
}

std::vector<TextBox> SolidNames::lines(const Frame& tank) const {
  std::vector<TextBox> boxes;
  for (const Name& name : names_) {
    const Point end = tank.page(name.end);
    boxes.push_back({std::min(end.x(), name.line_x) - 2, tank.area.top,
                     std::max(end.x(), name.line_x) + 2, end.y()});
    if (name.pole != ' ') boxes.push_back(box_about(end, 14, 14));
  }
  return boxes;
}

void SolidNames::block_lines(LabelPlacer& placer, const Frame& tank) const {
  for (const TextBox& box : lines(tank)) placer.block(box);
}

std::size_t SolidNames::draw_inside(Svg& svg, const mesh::Section& section,
                                    const std::vector<Frame>& frames,
                                    LabelPlacer& placer) const {
  std::size_t without = 0;
  for (const InsideName& name : inside_)
    if (name.pole != ' ')
      draw_lone_pole(svg, section, name.solid, name.pole, frames.front(),
                     placer);
  for (const InsideName& name : inside_)
    if (std::none_of(frames.begin(), frames.end(), [&](const Frame& frame) {
          return place_beside(svg, section, name.solid, name.text, frame,
                              placer);
        }))
      ++without;
  return without;
}

}  // namespace thinspot::viz
