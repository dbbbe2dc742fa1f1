#include "viz/solid_names.hpp"

#include "viz/palette.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr double row_height = 16;
constexpr int most_rows = 6;
constexpr double widest = 170;

TextStyle name_style() {
  return {.size = 12, .anchor = Anchor::middle};
}

/// The highest point of an outline that the frame shows, in the middle of
/// its flat top where it has one.
Point top_of(const mesh::Outline& outline, const Frame& frame) {
  const mesh::Box box = mesh::bounding_box(outline);
  const double x = std::clamp(box.centre().x(), frame.model.low.x(),
                              frame.model.high.x());
  // Just inside, so that the end of the line is seen to be on the solid.
  Point best(x, box.low.y());
  double distance = 1e300;
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop) {
      const Point up(x, box.high.y());
      const mesh::Foot foot = mesh::nearest(c, up);
      if (foot.distance >= distance) continue;
      distance = foot.distance;
      best = mesh::point_at(c, foot.t);
    }
  best.y() = std::min(best.y(), frame.model.high.y());
  return best;
}

}  // namespace

std::string name_with_role(const mesh::Solid& solid) {
  const std::string role = role_word(solid.role);
  const std::string name = clean_text(solid.name);
  if (role.empty() || name.find(role) != std::string::npos) return name;
  return name.empty() ? role : name + " (" + role + ")";
}

SolidNames::SolidNames(const mesh::Section& section, const Frame& tank,
                       double left, double right) {
  for (const mesh::PlacedSolid& solid : section.solids)
    names_.push_back({shortened(name_with_role(solid.spec), name_style(),
                                widest),
                      top_of(solid.outline, tank)});
  std::stable_sort(names_.begin(), names_.end(),
                   [](const Name& a, const Name& b) {
                     return a.solid.x() < b.solid.x();
                   });
  // Rows are counted upwards from the tank at y = 0 here.
  std::vector<TextBox> taken;
  std::vector<Name> placed;
  for (Name& name : names_) {
    if (place(name, tank.page(name.solid).x(), taken, left, right)) {
      rows_ = std::max(rows_, name.row + 1);
      placed.push_back(name);
    } else {
      ++left_out_;
    }
  }
  names_ = std::move(placed);
}

bool SolidNames::place(Name& name, double x, std::vector<TextBox>& taken,
                       double left, double right) const {
  const double width = text_width(name.text, name_style()) + 8;
  const auto is_free = [&](const TextBox& box) {
    return std::none_of(taken.begin(), taken.end(), [&](const TextBox& other) {
      return overlap(box, other);
    });
  };
  for (int row = 0; row < most_rows; ++row)
    for (const double shift : {0.0, -0.35, 0.35, -0.48, 0.48}) {
      const double centre =
          std::clamp(x + shift * width, left + width / 2,
                     std::max(left + width / 2, right - width / 2));
      const double y = -row * row_height;
      const TextBox text{centre - width / 2, y - row_height + 0.5,
                         centre + width / 2, y - 0.5};
      const double line_x = std::clamp(x, text.left + 6, text.right - 6);
      const TextBox line{std::min(x, line_x) - 2, y, std::max(x, line_x) + 2,
                         2};
      if (!is_free(text) || !is_free(line)) continue;
      taken.push_back(text);
      taken.push_back(line);
      name.centre = centre;
      name.row = row;
      name.line_x = line_x;
      return true;
    }
  return false;
}

double SolidNames::height() const { return rows_ * row_height + 6; }

void SolidNames::draw(Svg& svg, const Frame& tank) const {
  for (const Name& name : names_) {
    const double base = tank.area.top - 8 - name.row * row_height;
    const Point end = tank.page(name.solid);
    svg.line({name.line_x, base + 4}, end,
             {.stroke = colour::ink, .width = 0.7});
    svg.circle(end, 2, {.fill = colour::ink, .stroke = "#fff", .width = 0.6});
    svg.text({name.centre, base}, name.text, name_style());
  }
}

}  // namespace thinspot::viz
