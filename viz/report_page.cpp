#include "viz/report_page.hpp"

#include "viz/page_pieces.hpp"
#include "viz/page_text.hpp"

namespace thinspot::viz {

std::string report_page(const std::string& summary_json,
                        const std::string& what_if_json,
                        const PagePictures& pictures) {
  const std::string why = figure("Why it comes out so", pictures.why);
  const std::string card = figure("For the bench", pictures.card, "bench");
  const std::string steps = figure("Step by step", pictures.steps);
  const std::string json = safe_in_script(summary_json);
  const std::string model = safe_in_script(what_if_json);
  return filled_in(page_text(), {{"@@CARD@@", card},
                                 {"@@SECTION@@", pictures.section},
                                 {"@@WHY@@", why},
                                 {"@@THICKNESS@@", pictures.thickness},
                                 {"@@STEPS@@", steps},
                                 {"@@SUMMARY@@", json},
                                 {"@@WHAT_IF@@", model}});
}

}  // namespace thinspot::viz
