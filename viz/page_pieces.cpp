#include "viz/page_pieces.hpp"

namespace thinspot::viz {

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

std::string figure(const std::string& caption, const std::string& svg,
                   const std::string& kind) {
  if (svg.empty()) return "";
  const std::string named = kind.empty() ? "" : " class=\"" + kind + '"';
  return "<figure" + named + ">\n<figcaption>" + caption + "</figcaption>\n" +
         svg + "</figure>\n";
}

std::string with_ids(const std::string& svg, std::string_view prefix) {
  // Texts and attributes hold no bare "<" or ">": what lies between them is a
  // tag. In one, ids stand after these and, in the last, after a space too.
  constexpr std::string_view starts[] = {" id=\"", "\"url(#"};
  constexpr std::string_view named = "aria-labelledby=\"";
  std::string result;
  bool in_tag = false, in_names = false;
  for (std::size_t k = 0; k < svg.size(); ++k) {
    const char c = svg[k];
    if (c == '<') in_tag = true;
    if (c == '>') in_tag = false;
    if (c == '"') in_names = false;
    result += c;
    if (!in_tag) continue;
    const std::string_view so_far(svg.data(), k + 1);
    for (const std::string_view start : starts)
      if (so_far.ends_with(start)) result += prefix;
    if (so_far.ends_with(named)) in_names = true;
    if (in_names && (c == '"' || c == ' ')) result += prefix;
  }
  return result;
}

std::string filled_in(
    std::string_view page,
    const std::vector<std::pair<std::string_view, std::string_view>>& pieces) {
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
