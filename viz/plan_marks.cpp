#include "viz/plan_marks.hpp"

#include "viz/palette.hpp"

#include <cmath>
#include <numbers>

namespace thinspot::viz {

namespace {

constexpr double kReach = 8;  ///< of the largest sign about its centre

std::vector<Point> star(Point centre) {
  std::vector<Point> points;
  for (int k = 0; k < 10; ++k) {
    const double out = k % 2 == 0 ? kReach : 0.42 * kReach;
    const double turned = k * std::numbers::pi / 5;
    points.push_back(centre + out * Point(std::sin(turned), -std::cos(turned)));
  }
  return points;
}

std::vector<Point> square(Point centre, double half) {
  return {centre + Point(-half, -half), centre + Point(half, -half),
          centre + Point(half, half), centre + Point(-half, half)};
}

std::vector<Point> diamond(Point centre, double reach) {
  return {centre + Point(0, -reach), centre + Point(reach, 0),
          centre + Point(0, reach), centre + Point(-reach, 0)};
}

}  // namespace

std::string PlanMark::words() const {
  return label + (role == PlanRole::drawn ? "" : ": " + set_up->name);
}

std::vector<PlanMark> plan_marks(const solver::Plan& plan) {
  std::vector<PlanMark> marks;
  for (std::size_t k = plan.set_ups.size(); k-- > 1;)
    marks.push_back(
        {PlanRole::alternative, std::to_string(k + 1), &plan.set_ups[k]});
  if (!plan.set_ups.empty())
    marks.push_back(
        {PlanRole::recommended, "recommended", &plan.set_ups.front()});
  marks.push_back({PlanRole::drawn, "as drawn", &plan.drawn});
  return marks;
}

void draw_plan_sign(Svg& svg, PlanRole role, Point centre,
                    const std::string& title) {
  switch (role) {
    case PlanRole::drawn:
      svg.polygon(diamond(centre, kReach),
                  {.stroke = colour::ink, .width = 2, .title = title});
      return;
    case PlanRole::recommended:
      svg.polygon(star(centre), {.fill = colour::target,
                                 .stroke = "#fff",
                                 .width = 0.8,
                                 .title = title});
      return;
    case PlanRole::alternative:
      svg.polygon(square(centre, 0.6 * kReach), {.fill = colour::heavy,
                                                 .stroke = "#fff",
                                                 .width = 0.8,
                                                 .title = title});
      return;
  }
}

TextBox plan_sign_box(Point centre) {
  return {centre.x() - kReach, centre.y() - kReach, centre.x() + kReach,
          centre.y() + kReach};
}

TextStyle plan_label(PlanRole role) {
  const char* const fill = role == PlanRole::drawn         ? colour::ink
                           : role == PlanRole::recommended ? colour::target
                                                           : colour::heavy;
  return {.size = 12.5, .bold = true, .fill = fill, .halo = true};
}

}  // namespace thinspot::viz
