#include "viz/card_block.hpp"

#include <fmt/format.h>

#include <utility>

namespace thinspot::viz {

namespace {

constexpr double kHeading = 15;  ///< height, heading size 10.5
constexpr double kBelow = 5;

/// Number of lines without any being cut.
std::size_t lines_needed(const std::string& text, const TextStyle& style,
                         double width) {
  return wrapped(text, style, width, 1000).size();
}

}  // namespace

std::string whole_sentences(const std::string& text, const TextStyle& style,
                            double width, std::size_t lines) {
  if (lines_needed(text, style, width) <= lines) return text;
  std::string best;
  for (std::size_t at = text.find(". "); at != std::string::npos;
       at = text.find(". ", at + 1)) {
    const std::string part = text.substr(0, at + 1);
    if (!best.empty() && lines_needed(part, style, width) > lines) break;
    best = part;
  }
  return best.empty() ? text : best;
}

CardBlock::CardBlock(std::string heading, double width, const Look& look)
    : heading_(std::move(heading)), width_(width), look_(look) {}

std::vector<CardBlock::Line> CardBlock::lines_of(
    const std::string& paragraph) const {
  const double width = width_ - indent();
  std::string text = clean_text(paragraph);
  if (look_.by_sentence)
    text = whole_sentences(text, style(), width, look_.most_lines);
  std::vector<Line> lines;
  for (std::string& line : wrapped(text, style(), width, look_.most_lines))
    lines.push_back({std::move(line)});
  return lines;
}

void CardBlock::add(const std::string& paragraph) {
  std::vector<Line> lines = lines_of(paragraph);
  if (lines.empty()) return;
  ++count_;
  if (look_.numbered) lines.front().number = fmt::format("{}.", count_);
  lines_.insert(lines_.end(), lines.begin(), lines.end());
}

void CardBlock::add_all(const std::vector<std::string>& paragraphs,
                        double height) {
  for (std::size_t k = 0; k < paragraphs.size(); ++k) {
    const CardBlock before = *this;
    add(paragraphs[k]);
    const bool last = k + 1 == paragraphs.size();
    if (this->height() + (last ? 0 : line_height()) <= height) continue;
    *this = before;
    lines_.push_back(
        {fmt::format("and {} more, see the report", paragraphs.size() - k)});
    return;
  }
}

double CardBlock::height() const {
  if (lines_.empty()) return 0;
  return kHeading + static_cast<double>(lines_.size()) * line_height() + kBelow;
}

double CardBlock::draw(Svg& svg, double left, double top) const {
  if (lines_.empty()) return top;
  svg.text({left, top + 10}, heading_,
           {.size = 10.5, .bold = true, .fill = "#000"});
  double y = top + kHeading + 0.78 * look_.size;
  for (const Line& line : lines_) {
    if (!line.number.empty()) {
      TextStyle bold = style();
      bold.bold = true;
      svg.text({left, y}, line.number, bold);
    }
    svg.text({left + indent(), y}, line.text, style());
    y += line_height();
  }
  return top + height();
}

}  // namespace thinspot::viz
