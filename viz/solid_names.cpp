#include "viz/solid_names.hpp"

#include "viz/palette.hpp"
#include "viz/section_layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::viz {

namespace {

constexpr double row_height = 16;
constexpr int most_rows = 10;
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

/// Where a name's line may end: in the middle first.
std::vector<Point> ends_on(const mesh::Outline& outline, const mesh::Box& box,
                           const Frame& frame) {
  const double left = std::max(box.low.x(), frame.model.low.x());
  const double right = std::min(box.high.x(), frame.model.high.x());
  std::vector<Point> ends;
  for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85})
    ends.push_back(top_near(outline, left + share * (right - left), frame));
  return ends;
}

}  // namespace

std::string name_with_role(const mesh::Solid& solid) {
  const std::string role = role_word(solid.role);
  const std::string name = clean_text(solid.name);
  if (role.empty() || name.find(role) != std::string::npos) return name;
  return name.empty() ? role : name + " (" + role + ")";
}

SolidNames::SolidNames(const mesh::Section& section, const Frame& tank,
                       double left, double right)
    : left_(left), right_(right) {
  std::vector<Name> names;
  for (std::size_t k = 0; k < section.solids.size(); ++k) {
    const mesh::PlacedSolid& solid = section.solids[k];
    names.push_back(
        {shortened(name_with_role(solid.spec), name_style(), widest),
         ends_on(solid.outline, solid_box(section, k), tank)});
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
  left_out_ = names.size() - names_.size();
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
  for (int row = 0; row < most_rows; ++row)
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
    svg.circle(end, 2, {.fill = colour::ink, .stroke = "#fff", .width = 0.6});
    svg.text({name.centre, base}, name.text, name_style());
  }
}

void SolidNames::block_lines(LabelPlacer& placer, const Frame& tank) const {
  for (const Name& name : names_) {
    const Point end = tank.page(name.end);
    placer.block({std::min(end.x(), name.line_x) - 2, tank.area.top,
                  std::max(end.x(), name.line_x) + 2, end.y()});
  }
}

}  // namespace thinspot::viz
