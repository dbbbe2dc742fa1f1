#pragma once

#include <string>

namespace thinspot::viz {

/// The pictures of a plan's page; an empty one is left out.
struct PlanPictures {
  std::string card = {};       ///< bench_card() of the recommended set-up
  std::string trade_off = {};  ///< trade_off_chart()
  std::string changes = {};    ///< changes_chart()
  /// section_picture() and thickness_chart() of the set-up as drawn and of the
  /// recommended one; those of the latter empty where that is the same.
  std::string drawn_section = {}, planned_section = {};
  std::string drawn_thickness = {}, planned_thickness = {};
};

/// One self-contained HTML page that opens offline: what to do and what it
/// gains, the card for the bench, the set-up as drawn against the planned one,
/// the alternatives, what evenness costs in time, what to change first, and
/// what could vary.
/// @param plan_json  the text of plan.json
std::string plan_page(const std::string& plan_json,
                      const PlanPictures& pictures);

}  // namespace thinspot::viz
