#include "viz/bench_card.hpp"

#include "viz/card_block.hpp"
#include "viz/card_sketch.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/section_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace thinspot::viz {

namespace {

/// A5 in mm. One unit of the page is 0.777 pt there: 9.1 units are 7 pt, and
/// nothing is set smaller.
constexpr double kPaperWidth = 148, kPaperHeight = 210;
constexpr double kHeight = page_width * kPaperHeight / kPaperWidth;
constexpr double kMargin = 18;
constexpr double kWidth = page_width - 2 * kMargin;
constexpr double kBoxes = 44;  ///< height of the row to fill in
constexpr std::size_t kMostCautions = 4;

double draw_head(Svg& svg, const solver::Result& result,
                 const CardWords& words) {
  solver::Case named = result.used;
  named.title = words.title;
  const TextStyle title{.size = 14.5, .bold = true, .fill = "#000"};
  double y = kMargin + 11;
  for (const std::string& line :
       wrapped(picture_title(named), title, kWidth, 2)) {
    svg.text({kMargin, y}, line, title);
    y += 17.5;
  }
  const TextStyle small{.size = 9.8, .fill = "#000"};
  for (const std::string& line :
       wrapped(clean_text(words.tank), small, kWidth, 2)) {
    svg.text({kMargin, y - 2}, line, small);
    y += 12.5;
  }
  return y - 6;
}

/// What to do, framed. @returns where it ends.
double draw_todo(Svg& svg, const CardWords& words, double top) {
  const TextStyle style{.size = 11.5, .bold = true, .fill = "#000"};
  std::vector<std::string> lines;
  for (const std::string& one : words.todo)
    for (std::string& line : wrapped(clean_text(one), style, kWidth - 16, 3))
      lines.push_back(std::move(line));
  if (lines.empty()) return top;
  const double bottom = top + 9 + 14 * static_cast<double>(lines.size());
  svg.rect({kMargin, top, kMargin + kWidth, bottom},
           {.stroke = "#000", .width = 1.6}, 3);
  double y = top + 15;
  for (const std::string& line : lines) {
    svg.text({kMargin + 8, y}, line, style);
    y += 14;
  }
  return bottom;
}

/// Empty boxes with their names.
void draw_boxes(Svg& svg, double top) {
  struct Box {
    const char* name;
    double share;
  };
  constexpr std::array<Box, 5> boxes = {{{"Date", 0.22},
                                         {"Volts measured", 0.21},
                                         {"Amps measured", 0.21},
                                         {"Grams before", 0.18},
                                         {"Grams after", 0.18}}};
  double left = kMargin;
  for (const auto& [name, share] : boxes) {
    const double right = left + share * kWidth;
    svg.rect({left, top, right, top + kBoxes}, {.stroke = "#000", .width = 1});
    svg.text({left + 5, top + 11}, name, {.size = 9.4, .fill = "#000"});
    left = right;
  }
}

CardBlock filled(const std::string& heading,
                 const std::vector<std::string>& items,
                 const CardBlock::Look& look, std::size_t most) {
  CardBlock block(heading, kWidth, look);
  for (std::size_t k = 0; k < std::min(most, items.size()); ++k)
    block.add(items[k]);
  return block;
}

CardBlock notes_of(const solver::Result& result, bool brief) {
  const std::vector<std::string> notes = sketch_notes(result, brief);
  return filled("The part", notes, {.most_lines = 4}, notes.size());
}

/// The most serious ones, the rest named by their number.
CardBlock cautions(const std::vector<std::string>& all) {
  std::string heading = "Take care";
  if (all.size() > kMostCautions)
    heading +=
        fmt::format(" ({} more in the report)", all.size() - kMostCautions);
  return filled(heading, all,
                {.size = 9.4, .most_lines = 2, .by_sentence = true},
                kMostCautions);
}

std::string description(const CardWords& words) {
  std::string text = words.verdict;
  for (const std::string& one : words.todo) text += " " + one;
  return text;
}

}  // namespace

std::string bench_card(const solver::Result& result, const CardWords& words) {
  Svg svg("card", page_width);
  double y = draw_todo(svg, words, draw_head(svg, result, words)) + 8;

  const CardBlock::Look look{.most_lines = 3};
  const CardBlock meter = filled("At the meter", words.meter, look, 4);
  const CardBlock thickness =
      filled("What to expect", words.thickness, look, 4);
  const CardBlock care = cautions(words.cautions);
  const double room = kHeight - kMargin - y - 8 - kBoxes - meter.height() -
                      thickness.height() - care.height();
  // Steps, notes and sketch share it; a sketch below its least is of no use,
  // and no step gives way to a note that can be shorter.
  const CardBlock::Look numbered{.numbered = true, .most_lines = 3};
  const double all_steps =
      filled("Steps", words.steps, numbered, words.steps.size()).height();
  CardBlock notes = notes_of(result, false);
  if (notes.height() + all_steps + kLeastSketch > room)
    notes = notes_of(result, true);
  const double rest = room - notes.height();
  CardBlock steps("Steps, as computed", kWidth, numbered);
  steps.add_all(words.steps, rest - kLeastSketch);
  const double sketch = std::min(rest - steps.height(), kMostSketch);

  draw_card_sketch(svg, result, {kMargin, y, kMargin + kWidth, y + sketch});
  y += sketch + 8;
  for (const CardBlock& block : {notes, steps, meter, thickness, care})
    y = block.draw(svg, kMargin, y);
  draw_boxes(svg, kHeight - kMargin - kBoxes);
  solver::Case named = result.used;
  named.title = words.title;
  return in_grey(
      svg.finish(kHeight, "Card for the bench: " + picture_title(named),
                 description(words), Point(kPaperWidth, kPaperHeight)));
}

}  // namespace thinspot::viz
