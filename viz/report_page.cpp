#include "viz/report_page.hpp"

#include "viz/page_text.hpp"

#include <array>
#include <string_view>
#include <utility>

namespace thinspot::viz {

namespace {

/// JSON that no HTML reader can take for markup. "<" stands only inside JSON's
/// strings, where its escape means the same; U+2028 and U+2029 end lines for
/// old JavaScript.
std::string safe_in_script(std::string_view json) {
  std::string result;
  for (std::size_t k = 0; k < json.size(); ++k) {
    const std::string_view three = json.substr(k, 3);
    if (json[k] == '<')
      result += "\\u003c";
    else if (json[k] == '>')
      result += "\\u003e";
    else if (json[k] == '&')
      result += "\\u0026";
    else if (three == "\xE2\x80\xA8" || three == "\xE2\x80\xA9") {
      result += three.back() == '\xA8' ? "\\u2028" : "\\u2029";
      k += 2;
    } else
      result += json[k];
  }
  return result;
}

/// @param kind  class of the figure; empty: none
std::string figure(const std::string& caption, const std::string& svg,
                   const std::string& kind = "") {
  if (svg.empty()) return "";
  const std::string named = kind.empty() ? "" : " class=\"" + kind + '"';
  return "<figure" + named + ">\n<figcaption>" + caption + "</figcaption>\n" +
         svg + "</figure>\n";
}

}  // namespace

std::string report_page(const std::string& summary_json,
                        const std::string& what_if_json,
                        const PagePictures& pictures) {
  const std::string why = figure("Why it comes out so", pictures.why);
  const std::string card = figure("For the bench", pictures.card, "bench");
  const std::string steps = figure("Step by step", pictures.steps);
  // Marks are looked for in the page alone, in their order, never in what has
  // been put in: a title may say "@@SUMMARY@@".
  const std::string json = safe_in_script(summary_json);
  const std::string model = safe_in_script(what_if_json);
  const std::array<std::pair<std::string_view, std::string_view>, 7> pieces{
      {{"@@CARD@@", card},
       {"@@SECTION@@", pictures.section},
       {"@@WHY@@", why},
       {"@@THICKNESS@@", pictures.thickness},
       {"@@STEPS@@", steps},
       {"@@SUMMARY@@", json},
       {"@@WHAT_IF@@", model}}};
  std::string_view page = page_text();
  std::string result;
  for (const auto& [mark, text] : pieces) {
    const std::size_t at = page.find(mark);
    result += page.substr(0, at);
    result += text;
    page.remove_prefix(at + mark.size());
  }
  result += page;
  return result;
}

}  // namespace thinspot::viz
