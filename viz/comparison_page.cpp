#include "viz/comparison_page.hpp"

#include "viz/page_pieces.hpp"
#include "viz/page_text.hpp"

namespace thinspot::viz {

std::string comparison_page(const std::string& comparison_json,
                            const std::string& picture) {
  const std::string drawn = figure("Along the surface", picture);
  const std::string json = safe_in_script(comparison_json);
  return filled_in(comparison_page_text(),
                   {{"@@PICTURE@@", drawn}, {"@@COMPARISON@@", json}});
}

}  // namespace thinspot::viz
