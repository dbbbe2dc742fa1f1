#include "viz/plan_page.hpp"

#include "viz/page_pieces.hpp"
#include "viz/page_text.hpp"

namespace thinspot::viz {

std::string plan_page(const std::string& plan_json,
                      const PlanPictures& pictures) {
  const std::string card = figure("For the bench", pictures.card, "bench");
  const std::string trade_off =
      figure("Evenness against time", pictures.trade_off);
  const std::string changes = figure("Small changes", pictures.changes);
  // Both sides of a pair are drawn by one function: their ids are alike.
  const std::string pairs =
      figure("Tank and part as drawn", pictures.drawn_section) +
      figure("Tank and part as planned",
             with_ids(pictures.planned_section, "planned-")) +
      figure("Coating as drawn", pictures.drawn_thickness) +
      figure("Coating as planned",
             with_ids(pictures.planned_thickness, "planned-"));
  const std::string json = safe_in_script(plan_json);
  return filled_in(plan_page_text(), {{"@@CARD@@", card},
                                      {"@@PICTURES@@", pairs},
                                      {"@@TRADE_OFF@@", trade_off},
                                      {"@@CHANGES@@", changes},
                                      {"@@PLAN@@", json}});
}

}  // namespace thinspot::viz
