#include "tests/unit/svg_reading.hpp"

#include <algorithm>
#include <regex>

namespace thinspot::tests {

namespace {

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

// By hand, as the stack of std::regex goes with what it passes over, and a path
// has many thousand signs.
std::vector<Tag> tags_in(const std::string& svg, const std::string& name) {
  const std::string open = "<" + name, close = "</" + name + ">";
  std::vector<Tag> found;
  for (std::size_t at = svg.find(open); at != std::string::npos;
       at = svg.find(open, at + 1)) {
    const std::size_t begin = at + open.size(), end = svg.find('>', begin);
    if (end == std::string::npos) break;
    const std::size_t next = std::min(svg.find('<', end), svg.size());
    found.push_back({svg.substr(begin, end - begin),
                     svg.substr(end + 1, next - end - 1),
                     svg.compare(next, close.size(), close) == 0, end + 1});
  }
  return found;
}

std::map<std::string, std::string> attributes(const std::string& tag) {
  std::map<std::string, std::string> found;
  for (std::size_t at = 0; (at = tag.find("=\"", at)) != std::string::npos;) {
    const std::size_t name = tag.find_last_of(" \n", at) + 1;
    const std::size_t end = tag.find('"', at + 2);
    if (end == std::string::npos) break;
    found[tag.substr(name, at - name)] = tag.substr(at + 2, end - at - 2);
    at = end;
  }
  return found;
}

std::vector<DrawnText> drawn_texts(const std::string& svg) {
  std::vector<DrawnText> found;
  for (const Tag& tag : tags_in(svg, "text")) {
    if (!tag.closed) continue;
    const auto is = attributes(tag.attributes);
    viz::TextStyle style;
    style.size = std::stod(is.at("font-size"));
    style.bold = is.count("font-weight") > 0;
    if (is.count("text-anchor") > 0)
      style.anchor = is.at("text-anchor") == "middle" ? viz::Anchor::middle
                                                      : viz::Anchor::end;
    const std::string text = unescaped(tag.text);
    found.push_back(
        {text, style.bold, style.size,
         viz::text_box({std::stod(is.at("x")), std::stod(is.at("y"))}, text,
                       style)});
  }
  return found;
}

std::vector<viz::Point> drawn_points(const std::string& svg) {
  static const std::regex move("[ML]([-0-9.]+) ([-0-9.]+)");
  static const std::regex arc("A[^MLAZ]* ([-0-9.]+) ([-0-9.]+)");
  static const std::regex box("H([-0-9.]+)V([-0-9.]+)");  // its far corner
  std::vector<viz::Point> found;
  const std::string shown = svg.substr(svg.find("</defs>"));
  const std::sregex_iterator end;
  for (const Tag& tag : tags_in(shown, "path")) {
    const auto is = attributes(tag.attributes);
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
  std::vector<std::string> found;
  for (const Tag& tag : tags_in(svg, "title"))
    if (tag.closed) found.push_back(unescaped(tag.text));
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
