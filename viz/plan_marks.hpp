#pragma once

#include "solver/plan.hpp"
#include "viz/svg.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// What a set-up is to the plan: told by shape, and by colour besides.
enum class PlanRole { drawn, recommended, alternative };

/// A set-up as the pictures of a plan mark it.
struct PlanMark {
  PlanRole role = PlanRole::drawn;
  std::string label;  ///< "as drawn", "recommended", "2"
  const solver::SetUp* set_up = nullptr;
  std::string words() const;  ///< "recommended: two anodes, turned once"
};

/// Alternatives first, then the recommended one, at last the drawn one: the
/// order in which they lie on each other.
std::vector<PlanMark> plan_marks(const solver::Plan& plan);

/// A hollow diamond, a star, a square about `centre`.
/// @param title  what a pointer on it is told
void draw_plan_sign(Svg& svg, PlanRole role, Point centre,
                    const std::string& title = {});

/// Room that the sign takes.
TextBox plan_sign_box(Point centre);

TextStyle plan_label(PlanRole role);

}  // namespace thinspot::viz
