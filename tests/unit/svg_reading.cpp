#include "tests/unit/svg_reading.hpp"

#include <map>
#include <regex>

namespace thinspot::tests {

namespace {

/// Attributes of a tag, name to value.
std::map<std::string, std::string> attributes(const std::string& tag) {
  static const std::regex pattern(R"re(([a-zA-Z-]+)="([^"]*)")re");
  std::map<std::string, std::string> found;
  for (std::sregex_iterator at(tag.begin(), tag.end(), pattern), end; at != end;
       ++at)
    found[(*at)[1]] = (*at)[2];
  return found;
}

std::string unescaped(std::string text) {
  const std::pair<std::string, std::string> pairs[] = {{"&lt;", "<"},
                                                       {"&gt;", ">"},
                                                       {"&quot;", "\""},
                                                       {"&#39;", "'"},
                                                       {"&amp;", "&"}};
  for (const auto& [from, to] : pairs)
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos;
         at += to.size())
      text.replace(at, from.size(), to);
  return text;
}

}  // namespace

std::vector<DrawnText> drawn_texts(const std::string& svg) {
  static const std::regex pattern("<text([^>]*)>([^<]*)</text>");
  std::vector<DrawnText> found;
  for (std::sregex_iterator at(svg.begin(), svg.end(), pattern), end; at != end;
       ++at) {
    const auto is = attributes((*at)[1]);
    viz::TextStyle style;
    style.size = std::stod(is.at("font-size"));
    style.bold = is.count("font-weight") > 0;
    if (is.count("text-anchor") > 0)
      style.anchor = is.at("text-anchor") == "middle" ? viz::Anchor::middle
                                                      : viz::Anchor::end;
    const std::string text = unescaped((*at)[2]);
    found.push_back(
        {text, style.bold, style.size,
         viz::text_box({std::stod(is.at("x")), std::stod(is.at("y"))}, text,
                       style)});
  }
  return found;
}

std::vector<viz::Point> drawn_points(const std::string& svg) {
  static const std::regex path("<path([^>]*)>");
  static const std::regex move("[ML]([-0-9.]+) ([-0-9.]+)");
  static const std::regex arc("A[^MLAZ]* ([-0-9.]+) ([-0-9.]+)");
  static const std::regex box("H([-0-9.]+)V([-0-9.]+)");  // its far corner
  std::vector<viz::Point> found;
  const std::string shown = svg.substr(svg.find("</defs>"));
  for (std::sregex_iterator at(shown.begin(), shown.end(), path), end;
       at != end; ++at) {
    const auto is = attributes((*at)[1]);
    if (is.count("clip-path") > 0) continue;
    const std::string& d = is.at("d");
    for (const std::regex& piece : {move, arc, box})
      for (std::sregex_iterator one(d.begin(), d.end(), piece); one != end;
           ++one)
        found.emplace_back(std::stod((*one)[1]), std::stod((*one)[2]));
  }
  return found;
}

std::vector<std::string> titles(const std::string& svg) {
  static const std::regex pattern("<title>([^<]*)</title>");
  std::vector<std::string> found;
  for (std::sregex_iterator at(svg.begin(), svg.end(), pattern), end; at != end;
       ++at)
    found.push_back(unescaped((*at)[1]));
  return found;
}

std::string fault_in_markup(const std::string& svg) {
  std::vector<std::string> open;
  for (std::size_t at = 0; at < svg.size();) {
    if (svg[at] == '&' &&
        !std::regex_search(svg.begin() + static_cast<long>(at), svg.end(),
                           std::regex("^&(lt|gt|amp|quot|#39);"),
                           std::regex_constants::match_continuous))
      return "bare & at " + svg.substr(at, 40);
    if (svg[at] == '>') return "bare > at " + svg.substr(at, 40);
    if (svg[at] != '<') {
      ++at;
      continue;
    }
    const std::size_t end = svg.find('>', at);
    if (end == std::string::npos) return "tag without end";
    const std::string tag = svg.substr(at + 1, end - at - 1);
    const std::string name = tag.substr(0, tag.find_first_of(" \n/", 1));
    if (tag.front() == '/') {
      if (open.empty() || "/" + open.back() != tag) return "stray " + tag;
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(name);
    }
    at = end + 1;
  }
  return open.empty() ? "" : "not closed: " + open.back();
}

viz::TextBox view_box(const std::string& svg) {
  static const std::regex pattern("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\"");
  std::smatch found;
  if (!std::regex_search(svg, found, pattern)) return {};
  return {0, 0, std::stod(found[1]), std::stod(found[2])};
}

}  // namespace thinspot::tests
