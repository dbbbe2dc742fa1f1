#include "viz/fit_page.hpp"

#include "viz/page_pieces.hpp"
#include "viz/page_text.hpp"
#include "viz/svg.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

namespace {

using Lines = std::vector<std::string>;

std::string table(const std::string& name, const PageTable& t) {
  std::string html = fmt::format(
      "<div class=\"scroll\" tabindex=\"0\" role=\"region\" "
      "aria-label=\"{0}\"><table>\n<caption>{0}</caption>\n"
      "<thead><tr>",
      escaped(name));
  for (const std::string& head : t.heads)
    html += fmt::format("<th scope=\"col\">{}</th>", escaped(head));
  html += "</tr></thead>\n<tbody>\n";
  for (const auto& row : t.rows) {
    html += "<tr>";
    for (std::size_t k = 0; k < row.size(); ++k)
      html += k == 0 ? fmt::format("<th scope=\"row\">{}</th>", escaped(row[k]))
                     : fmt::format("<td>{}</td>", escaped(row[k]));
    html += "</tr>\n";
  }
  return html + "</tbody></table></div>\n";
}

std::string list(const std::string& name, const Lines& lines) {
  if (lines.empty()) return "";
  std::string html = name.empty()
                         ? "<ul>\n"
                         : fmt::format("<h2>{}</h2>\n<ul>\n", escaped(name));
  for (const std::string& line : lines)
    html += fmt::format("<li>{}</li>\n", escaped(line));
  return html + "</ul>\n";
}

std::string card(const std::string& html) {
  return html.empty() ? "" : "<div class=\"card\">\n" + html + "</div>\n";
}

std::string untold(const FitPageText& t) {
  return list("What the readings cannot tell", t.untold) +
         list("What to read next", t.next);
}

/// escaped() takes line breaks out.
std::string escaped_lines(std::string_view text) {
  std::string html;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    html += escaped(text.substr(0, end)) + "\n";
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  return html;
}

std::string paste(const FitPageText& t) {
  return fmt::format(
      "<h2>To paste into the case</h2>\n<p>The whole case with these values "
      "is in {}.</p>\n<pre tabindex=\"0\">{}</pre>\n",
      escaped(t.fitted_file), escaped_lines(t.fragment));
}

}  // namespace

std::string fit_page(const FitPageText& t) {
  const std::string said =
      fmt::format(
          "<div class=\"verdict\"><p class=\"todo\">{}</p>\n"
          "<p>{}</p>\n",
          escaped(t.verdict), escaped(t.scatter)) +
      list("", t.outliers) + "</div>\n" +
      card(list("What it means for the part", t.forecast));
  const std::string pairs =
      figure("Coating by the case as it was", t.thickness_before) +
      figure("Coating by the fitted values",
             with_ids(t.thickness_now, "fitted-"));
  const std::string title = escaped(t.title), set_up = escaped(t.set_up);
  const std::string values = card(table("Values", t.values)) + card(untold(t));
  const std::string readings = card(table("Each reading", t.readings));
  const std::string residuals = figure("Readings", t.residuals);
  const std::string rest = card(paste(t)) + card(list("Cautions", t.cautions));
  return filled_in(fit_page_text(), {{"@@NAME@@", title},
                                     {"@@TITLE@@", title},
                                     {"@@SET_UP@@", set_up},
                                     {"@@SAID@@", said},
                                     {"@@VALUES@@", values},
                                     {"@@RESIDUALS@@", residuals},
                                     {"@@READINGS@@", readings},
                                     {"@@PICTURES@@", pairs},
                                     {"@@REST@@", rest}});
}

}  // namespace thinspot::viz
