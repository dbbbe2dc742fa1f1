#include "tests/unit/sweep_samples.hpp"

#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"

#include <catch2/catch.hpp>

#include <limits>

namespace thinspot::tests {

namespace {

viz::SweptKey stepped(const std::string& name, const std::string& unit,
                      double first, double step, std::size_t count) {
  viz::SweptKey key{name, unit, {}, {}, false};
  for (std::size_t k = 0; k < count; ++k)
    key.values.push_back(first + step * static_cast<double>(k));
  return key;
}

}  // namespace

double no_result() { return std::numeric_limits<double>::quiet_NaN(); }

viz::SweptFigure thinnest_spot() {
  return {"thinnest significant spot", "um", 10.0, viz::Better::more};
}

viz::SweptKey gaps(std::size_t count) {
  return stepped("anode.sheet.gap", "mm", 10, 1, count);
}

viz::SweptKey currents(std::size_t count) {
  return stepped("supply.current", "A", 0.1, 0.1, count);
}

viz::SweptKey worded(const std::vector<std::string>& words) {
  viz::SweptKey key = stepped("anode.kind", "", 0, 1, words.size());
  key.words = words;
  return key;
}

viz::SweepMap grid(const viz::SweptKey& x, const viz::SweptKey& y,
                   const std::function<double(std::size_t, std::size_t)>& of) {
  viz::SweepMap map{x, y, {}, {}};
  for (std::size_t row = 0; row < y.values.size(); ++row)
    for (std::size_t column = 0; column < x.values.size(); ++column)
      map.values.push_back(of(column, row));
  return map;
}

viz::SweepMap slope(const viz::SweptKey& x, const viz::SweptKey& y) {
  return grid(x, y, [](std::size_t column, std::size_t row) {
    return static_cast<double>(column + row);
  });
}

std::vector<DrawnPath> drawn_paths(const std::string& svg) {
  const std::string shown = svg.substr(svg.find("</defs>"));
  std::vector<DrawnPath> found;
  for (const Tag& tag : tags_in(shown, "path")) {
    auto is = attributes(tag.attributes);
    DrawnPath path{is["fill"], is["stroke-dasharray"], is["d"], {}};
    constexpr std::string_view title = "<title>";
    const std::size_t begin = tag.end + title.size();
    if (shown.compare(tag.end, title.size(), title) == 0)
      path.title = shown.substr(begin, shown.find('<', begin) - begin);
    found.push_back(std::move(path));
  }
  return found;
}

std::vector<DrawnPath> paths_told(const std::string& svg,
                                  const std::string& words) {
  std::vector<DrawnPath> found;
  for (const DrawnPath& path : drawn_paths(svg))
    if (path.title.find(words) != std::string::npos) found.push_back(path);
  return found;
}

void check_sweep_picture(const std::string& svg, std::size_t least) {
  check_picture(svg, least);
  const viz::TextBox page = view_box(svg);
  for (const viz::Point& p : drawn_points(svg)) CHECK(page.holds(p));
}

}  // namespace thinspot::tests
