#include "viz/svg.hpp"

#include "viz/numbers.hpp"

#include <fmt/format.h>

#include <utility>

namespace thinspot::viz {

namespace {

std::string pair(Point p) {
  return short_number(p.x()) + ' ' + short_number(p.y());
}

std::string attributes(const Paint& p) {
  std::string text = " fill=\"" + p.fill + '"';
  if (p.stroke != "none") {
    text += " stroke=\"" + p.stroke + '"';
    if (p.width != 1) text += " stroke-width=\"" + short_number(p.width) + '"';
    if (!p.dash.empty()) text += " stroke-dasharray=\"" + p.dash + '"';
    if (p.round) text += " stroke-linecap=\"round\"";
  }
  if (p.crisp) text += " shape-rendering=\"crispEdges\"";
  if (p.opacity != 1) text += " opacity=\"" + short_number(p.opacity) + '"';
  if (!p.clip.empty()) text += " clip-path=\"url(#" + p.clip + ")\"";
  return text;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string result;
  for (const char c : clean_text(text)) switch (c) {
      case '&': result += "&amp;"; break;
      case '<': result += "&lt;"; break;
      case '>': result += "&gt;"; break;
      case '"': result += "&quot;"; break;
      case '\'': result += "&#39;"; break;
      default: result += c;
    }
  return result;
}

void PathText::move(Point to) { text_ += 'M' + pair(to); }

void PathText::line(Point to) { text_ += 'L' + pair(to); }

void PathText::arc(Point to, double radius, bool large, bool clockwise) {
  const std::string r = short_number(radius);
  text_ += fmt::format("A{} {} 0 {} {} {}", r, r, large ? 1 : 0,
                       clockwise ? 1 : 0, pair(to));
}

void PathText::box(const TextBox& box) {
  text_ += fmt::format("M{}H{}V{}H{}Z", pair({box.left, box.top}),
                       short_number(box.right), short_number(box.bottom),
                       short_number(box.left));
}

void PathText::dot(Point at) { text_ += 'M' + pair(at) + "h0"; }

void PathText::chain(const std::vector<Point>& points, bool closed) {
  for (std::size_t k = 0; k < points.size(); ++k)
    k == 0 ? move(points[k]) : line(points[k]);
  if (closed && !points.empty()) close();
}

Svg::Svg(std::string prefix, double width)
    : prefix_(std::move(prefix)), width_(width) {}

void Svg::path(const PathText& d, const Paint& paint) {
  if (d.empty()) return;
  const bool filled = paint.fill != "none";
  add(fmt::format("<path{}{} d=\"{}\"{}\n", attributes(paint),
                  filled ? " fill-rule=\"evenodd\"" : "", d.text(),
                  paint.title.empty()
                      ? "/>"
                      : "><title>" + escaped(paint.title) + "</title></path>"));
}

void Svg::rect(const TextBox& box, const Paint& paint, double rounding) {
  add(fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}{}/>\n",
                  short_number(box.left), short_number(box.top),
                  short_number(box.width()), short_number(box.height()),
                  rounding > 0 ? " rx=\"" + short_number(rounding) + '"' : "",
                  attributes(paint)));
}

void Svg::line(Point from, Point to, const Paint& paint) {
  PathText d;
  d.chain({from, to}, false);
  path(d, paint);
}

void Svg::circle(Point centre, double radius, const Paint& paint) {
  add(fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>\n",
                  short_number(centre.x()), short_number(centre.y()),
                  short_number(radius), attributes(paint)));
}

void Svg::polygon(const std::vector<Point>& points, const Paint& paint) {
  PathText d;
  d.chain(points, true);
  path(d, paint);
}

void Svg::text(Point at, std::string_view text, const TextStyle& s) {
  std::string more;
  if (s.anchor == Anchor::middle) more += " text-anchor=\"middle\"";
  if (s.anchor == Anchor::end) more += " text-anchor=\"end\"";
  if (s.bold) more += " font-weight=\"bold\"";
  if (s.italic) more += " font-style=\"italic\"";
  if (s.halo)
    more +=
        " stroke=\"#fff\" stroke-width=\"3\" stroke-linejoin=\"round\""
        " paint-order=\"stroke\"";
  add(fmt::format(
      "<text x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"{}\"{}>{}</text>\n",
      short_number(at.x()), short_number(at.y()), short_number(s.size), s.fill,
      more, escaped(text)));
}

void Svg::open_group(double opacity, std::string_view name) {
  add("<g");
  if (opacity != 1) add(" opacity=\"" + short_number(opacity) + '"');
  if (!name.empty()) add(fmt::format(" class=\"{}\"", escaped(name)));
  add(">\n");
}

void Svg::close_group() { add("</g>\n"); }

std::string Svg::clip(const TextBox& box) {
  const std::string id = fmt::format("{}-clip-{}", prefix_, ++ids_);
  defs_ += fmt::format(
      "<clipPath id=\"{}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" "
      "height=\"{}\"/></clipPath>\n",
      id, short_number(box.left), short_number(box.top),
      short_number(box.width()), short_number(box.height()));
  return id;
}

std::string Svg::pattern(Pattern kind, std::string_view colour,
                         double spacing) {
  const std::string s = short_number(spacing);
  const std::string half = short_number(spacing / 2);
  const char* turn = "";
  std::string inside;
  switch (kind) {
    case Pattern::slanted:
      turn = " patternTransform=\"rotate(45)\"";
      [[fallthrough]];
    case Pattern::upright: inside = "M0 0V" + s; break;
    case Pattern::level: inside = "M0 0H" + s; break;
    case Pattern::crossed:
      turn = " patternTransform=\"rotate(45)\"";
      inside = "M0 0V" + s + "M0 0H" + s;
      break;
    case Pattern::dots: break;
  }
  const std::string drawn =
      kind == Pattern::dots
          ? fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"1.1\" fill=\"{}\"/>",
                        half, half, colour)
          : fmt::format("<path d=\"{}\" stroke=\"{}\" stroke-width=\"1.6\"/>",
                        inside, colour);
  const std::string whole = fmt::format(
      " width=\"{}\" height=\"{}\" patternUnits=\"userSpaceOnUse\"{}>{}"
      "</pattern>\n",
      s, s, turn, drawn);
  const auto [entry, fresh] = patterns_.try_emplace(whole);
  if (fresh) {
    entry->second = fmt::format("{}-pattern-{}", prefix_, ++ids_);
    defs_ += fmt::format("<pattern id=\"{}\"{}", entry->second, whole);
  }
  return "url(#" + entry->second + ')';
}

void Svg::data(std::string_view name, std::string_view numbers) {
  data_ += fmt::format(" data-{}=\"{}\"", name, escaped(numbers));
}

std::string Svg::finish(double height, std::string_view title,
                        std::string_view description,
                        const std::optional<Point>& paper) const {
  const std::string w = short_number(width_), h = short_number(height);
  const std::string size =
      paper ? fmt::format("{}mm\" height=\"{}mm", short_number(paper->x()),
                          short_number(paper->y()))
            : "100%";
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" "
      "width=\"{}\" role=\"img\" aria-labelledby=\"{}-title {}-desc\" "
      "font-family=\"DejaVu Sans, Verdana, Helvetica, Arial, sans-serif\"{}>\n"
      "<title id=\"{}-title\">{}</title>\n<desc id=\"{}-desc\">{}</desc>\n"
      "<defs>\n{}</defs>\n"
      "<rect width=\"{}\" height=\"{}\" fill=\"#fff\"/>\n{}</svg>\n",
      w, h, size, prefix_, prefix_, data_, prefix_, escaped(title), prefix_,
      escaped(description), defs_, w, h, body_);
}

}  // namespace thinspot::viz
