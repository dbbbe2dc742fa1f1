#include "viz/sweep_axis.hpp"

#include "mesh/digits.hpp"
#include "viz/label_placer.hpp"
#include "viz/palette.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

constexpr std::size_t kFew = 9;       ///< values that each have a number
constexpr std::size_t kLetters = 26;  ///< words that may have one each
constexpr double kLine = 14;
constexpr std::size_t kLines = 3;  ///< of a word below an axis
constexpr double kWordWidth = 96;  ///< of a word beside one
constexpr double kPerNumber = 44;  ///< room of a number along an axis
constexpr double kPerUpright = 28;
constexpr double kFactorSpan = 4;  ///< less: numbers as by amount
constexpr double kEnd = 0.03;      ///< room beyond the outer points

TextStyle number_style(Anchor anchor) {
  return {.size = 12.5, .anchor = anchor, .fill = colour::pale_ink};
}

bool rises(const std::vector<double>& values) {
  return std::adjacent_find(values.begin(), values.end(),
                            [](double a, double b) { return !(b > a); }) ==
         values.end();
}

AxisScale scale_of(const SweptKey& key, double from, double to) {
  const auto [least, most] =
      std::minmax_element(key.values.begin(), key.values.end());
  AxisScale scale{*least, *most, from, to, false};
  scale.by_factor = key.by_factor && *least > 0 && *most > *least;
  // A single value, or as good as one, stands in the middle.
  const double nearest = 1e-9 * std::max(std::abs(*least), std::abs(*most));
  if (*most - *least <= nearest) {
    const double room = *most != 0 ? 0.1 * std::abs(*most) : 1;
    return {*least - room, *most + room, from, to, false};
  }
  if (scale.by_factor) {
    const double room = std::pow(*most / *least, kEnd);
    scale.low = *least / room;
    scale.high = *most * room;
  } else {
    const double room = kEnd * (*most - *least);
    scale.low = *least - room;
    scale.high = *most + room;
  }
  return scale;
}

/// Broken to fit into the width; empty: it does not.
std::vector<std::string> fitted(const std::string& word, double width) {
  return wrapped_whole(clean_text(word), number_style(Anchor::middle), width,
                       kLines);
}

}  // namespace

std::string axis_number(const Tick& tick) {
  constexpr std::size_t longest = 7;
  return tick.label.size() > longest ? digits(tick.value) : tick.label;
}

SweepAxis::SweepAxis(const SweptKey& key, double from, double to, Form form)
    : key_(key),
      from_(from),
      to_(to),
      cells_(form == Form::cells || !key.words.empty()),
      scale_(scale_of(key, from, to)) {
  marks_ = key_.words.empty() ? number_marks() : word_marks();
}

double SweepAxis::cell_size() const {
  return std::abs(to_ - from_) / static_cast<double>(key_.values.size());
}

double SweepAxis::edge(std::size_t k) const {
  return from_ + (to_ - from_) * static_cast<double>(k) /
                     static_cast<double>(key_.values.size());
}

double SweepAxis::page(std::size_t k) const {
  return cells_ ? 0.5 * (edge(k) + edge(k + 1)) : scale_.page(key_.values[k]);
}

double SweepAxis::page_of(double value) const {
  if (!cells_) return scale_.page(value);
  const double last = static_cast<double>(key_.values.size() - 1);
  return page(
      static_cast<std::size_t>(std::clamp(std::round(value), 0.0, last)));
}

double SweepAxis::between(double value) const {
  const auto& all = key_.values;
  const auto above = std::upper_bound(all.begin() + 1, all.end() - 1, value);
  const auto k = static_cast<std::size_t>(above - all.begin()) - 1;
  const bool factor = key_.by_factor && all.front() > 0;
  const double t =
      factor ? std::log(value / all[k]) / std::log(all[k + 1] / all[k])
             : (value - all[k]) / (all[k + 1] - all[k]);
  return page(k) + t * (page(k + 1) - page(k));
}

std::vector<Tick> SweepAxis::number_marks() const {
  const auto& all = key_.values;
  std::vector<Tick> marks;
  const auto each = [&] {
    for (std::size_t k = 0; k < all.size(); ++k)
      marks.push_back({page(k), digits(all[k])});
  };
  const double room = std::abs(to_ - from_);
  const bool rising = all.size() > 1 && rises(all);
  const bool few =
      all.size() <= kFew &&
      static_cast<double>(all.size()) * (is_level() ? 34 : 16) <= room;
  if (all.size() == 1 || (cells_ && (few || !rising))) {
    each();
    return marks;
  }
  const int count = std::max(
      2, static_cast<int>(room / (is_level() ? kPerNumber : kPerUpright)));
  AxisScale scale = scale_;
  if (cells_) {  // numbers stand between the outer values only
    scale.low = all.front();
    scale.high = all.back();
  }
  const bool factor = scale.by_factor && scale.high > kFactorSpan * scale.low;
  for (const Tick& t :
       factor ? scale.numbers(count) : ticks(scale.low, scale.high, count))
    if (t.value >= scale.low && t.value <= scale.high)
      marks.push_back(
          {cells_ ? between(t.value) : scale.page(t.value), axis_number(t)});
  if (marks.empty()) each();
  return marks;
}

std::vector<Tick> SweepAxis::word_marks() {
  const auto fits = [&](const std::string& word) {
    return is_level() ? !fitted(word, cell_size() - 6).empty()
                      : text_width(clean_text(word),
                                   number_style(Anchor::end)) <= kWordWidth;
  };
  const auto& words = key_.words;
  lettered_ = words.size() <= kLetters &&
              !std::all_of(words.begin(), words.end(), fits);
  std::vector<Tick> marks;
  for (std::size_t k = 0; k < words.size() && k < key_.values.size(); ++k)
    marks.push_back(
        {page(k), lettered_ ? std::string(1, static_cast<char>('A' + k))
                  : fits(words[k])
                      ? clean_text(words[k])
                      : shortened(clean_text(words[k]),
                                  number_style(Anchor::end), kWordWidth)});
  return marks;
}

std::vector<std::string> SweepAxis::letter_words() const {
  std::vector<std::string> lines;
  if (!lettered_) return lines;
  for (std::size_t k = 0; k < marks_.size(); ++k)
    lines.push_back(marks_[k].label + ": " + key_.words[k]);
  return lines;
}

double SweepAxis::label_width() const {
  double widest = 0;
  for (const Tick& mark : marks_)
    widest =
        std::max(widest, text_width(mark.label, number_style(Anchor::end)));
  return widest;
}

double SweepAxis::draw_below(Svg& svg, double top) const {
  const TextStyle style = number_style(Anchor::middle);
  LabelPlacer placer({2, top, svg.width() - 2, top + 6 + kLine * kLines + 6});
  double bottom = top + 6 + kLine;
  for (const Tick& mark : marks_) {
    std::vector<std::string> lines;
    if (!key_.words.empty()) lines = fitted(mark.label, cell_size() - 6);
    if (lines.empty()) lines = {mark.label};
    TextBox room = text_box({mark.value, top + 17}, lines[0], style);
    for (const std::string& line : lines) {
      const TextBox own = text_box({mark.value, top + 17}, line, style);
      room.left = std::min(room.left, own.left);
      room.right = std::max(room.right, own.right);
    }
    if (!placer.take(room.grown(2))) continue;
    svg.line({mark.value, top}, {mark.value, top + 4},
             {.stroke = colour::pale_ink, .width = 0.8});
    double y = top + 17;
    for (const std::string& line : lines) {
      svg.text({mark.value, y}, line, style);
      y += kLine;
    }
    bottom = std::max(bottom, y - kLine + 4);
  }
  return bottom;
}

void SweepAxis::draw_beside(Svg& svg, double right) const {
  const TextStyle style = number_style(Anchor::end);
  LabelPlacer placer({0, to_ - 9, right, from_ + 9});
  for (const Tick& mark : marks_) {
    const Point at(right - 6, mark.value + 4.4);
    if (!placer.take(text_box(at, mark.label, style))) continue;
    svg.line({right - 4, mark.value}, {right, mark.value},
             {.stroke = colour::pale_ink, .width = 0.8});
    svg.text(at, mark.label, style);
  }
}

double draw_name_below(Svg& svg, const std::string& name, double left,
                       double right, double top) {
  const TextStyle style{.size = 12.5, .anchor = Anchor::middle, .bold = true};
  double y = top + 14;
  for (const std::string& line :
       wrapped(clean_text(name), style, right - left, 2)) {
    svg.text({0.5 * (left + right), y}, line, style);
    y += 15;
  }
  return y - 11;
}

}  // namespace thinspot::viz
