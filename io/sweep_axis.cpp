#include "io/sweep_axis.hpp"

#include "io/number.hpp"
#include "io/quote.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <set>
#include <string_view>

namespace thinspot::io {

namespace {

constexpr std::size_t kLongest = 100'000;  // bytes
constexpr const char* kForm =
    "KEY=10 mm..40 mm:31, or KEY=0.2,0.4,0.8 A, with a key as in "
    "anode.sheet.gap";

[[noreturn]] void refuse(const std::string& key, const std::string& wrong,
                         const std::string& mend) {
  throw InputError(is_printable(key, 60) ? key : in_quotes(key), wrong, mend);
}

/// Digits of a number that is not written by hand: finer than the values of a
/// range can lie apart, and without the noise of arithmetic, so that one of 31
/// values says "11 mm" where a list would.
constexpr int kDigits = 7, kDigitsOfSpan = 6;

double read_again(const std::string& text) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

/// To a millionth of the span, or less; as it is where all numbers are alike or
/// further apart than numbers go.
double rounded(double number, double span) {
  if (!(span > 0) || !std::isfinite(span)) return number;
  const int first = static_cast<int>(std::floor(std::log10(span)));
  const int digits = std::clamp(kDigitsOfSpan - 1 - first, 0, 330);
  // Of minus nothing makes nothing.
  return read_again(fmt::format("{:.{}f}", number, digits)) + 0.0;
}

/// A number and its unit, and not a tolerance or a second number too.
bool is_unit(const std::string& unit) {
  for (const char* sign : {"+-", "+/-", "\u00B1", ".."})
    if (unit.find(sign) != std::string::npos) return false;
  return read_number(unit).length == 0;
}

/// A number with what stands behind it.
struct Written {
  double number = 0;
  std::string digits, unit;
};

std::optional<Written> written_number(std::string_view text) {
  const NumberStart start = read_number(text);
  if (start.length == 0 || !std::isfinite(start.number)) return std::nullopt;
  const std::string unit(trimmed(text.substr(start.length)));
  if (!is_unit(unit)) return std::nullopt;
  return Written{start.number, std::string(text.substr(0, start.length)), unit};
}

/// "1e999 A", "inf", "nan mm": meant as a number, and none.
bool is_beyond_numbers(std::string_view piece) {
  const NumberStart start = read_number(piece);
  if (start.length == 0 || std::isfinite(start.number)) return false;
  const std::string_view rest = piece.substr(start.length);
  return rest.empty() || rest.front() == ' ' ||
         piece.find_first_of("0123456789") < start.length;
}

/// Pieces between commas that stand in no quotes and no brackets.
std::vector<std::string> pieces_of(std::string_view text) {
  std::vector<std::string> pieces{""};
  char quote = 0;
  int depth = 0;
  bool escaped = false;
  for (const char c : text) {
    if (quote) {
      if (c == quote && !escaped) quote = 0;
      escaped = c == '\\' && quote == '"' && !escaped;
    } else if (c == '"' || c == '\'') {
      quote = c;
    } else if (c == '[' || c == '{') {
      ++depth;
    } else if (c == ']' || c == '}') {
      --depth;
    } else if (c == ',' && depth <= 0) {
      pieces.emplace_back();
      continue;
    }
    pieces.back() += c;
  }
  for (std::string& piece : pieces) piece = std::string(trimmed(piece));
  return pieces;
}

std::string with_unit(const std::string& digits, const std::string& unit) {
  return unit.empty() ? digits : digits + " " + unit;
}

/// "10 mm..40 mm:31 log", taken apart.
struct Range {
  Written low, high;
  std::size_t count = 0;  ///< 0: not said
  bool by_factor = false;
};

/// The number of values behind the last colon.
std::size_t count_in(const std::string& key, std::string_view text) {
  std::size_t count = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), count);
  if (error != std::errc{} || end != text.data() + text.size() || count < 2 ||
      count > kMostValues)
    refuse(key, in_quotes(text) + " is no number of values",
           fmt::format("2 to {}, as in 10 mm..40 mm:31", kMostValues));
  return count;
}

Range range_in(const std::string& key, std::string_view text) {
  Range range;
  constexpr std::string_view kLog = " log";
  if (text.ends_with(kLog)) {
    range.by_factor = true;
    text = trimmed(text.substr(0, text.size() - kLog.size()));
  }
  const auto dots = text.find("..");
  if (const auto colon = text.rfind(':');
      colon != std::string_view::npos && colon > dots) {
    range.count = count_in(key, trimmed(text.substr(colon + 1)));
    text = trimmed(text.substr(0, colon));
  }
  const auto low = written_number(trimmed(text.substr(0, dots)));
  const auto high = written_number(trimmed(text.substr(dots + 2)));
  if (!low || !high)
    refuse(key, in_quotes(text) + " is no range",
           "two numbers with their unit, as in 10 mm..40 mm:31");
  range.low = *low;
  range.high = *high;
  if (range.low.unit.empty()) range.low.unit = range.high.unit;
  if (range.high.unit.empty()) range.high.unit = range.low.unit;
  if (range.low.unit != range.high.unit)
    refuse(key, in_quotes(text) + " has two units",
           "both ends in the same one, as in 10 mm..40 mm:31");
  if (!(range.low.number < range.high.number))
    refuse(key, in_quotes(text) + " does not rise", "the smaller end first");
  if (range.by_factor && !(range.low.number > 0))
    refuse(key, in_quotes(text) + " cannot go by factor from there",
           "begin above 0, or leave out log");
  if (!std::isfinite(range.high.number - range.low.number) ||
      (range.by_factor && !std::isfinite(range.high.number / range.low.number)))
    refuse(key, in_quotes(text) + " is too wide",
           "ends that a computer can take from each other");
  return range;
}

SweepAxis axis_of(const std::string& key, const Range& range) {
  SweepAxis axis;
  axis.key = key;
  axis.unit = range.low.unit;
  axis.by_factor = range.by_factor;
  axis.anywhere = range.count == 0;
  axis.numbers = {range.low.number, range.high.number};
  const std::size_t count = std::max<std::size_t>(range.count, 2);
  std::vector<double> numbers;
  for (std::size_t k = 0; k < count; ++k) {
    const double share =
        static_cast<double>(k) / static_cast<double>(count - 1);
    numbers.push_back(k + 1 == count ? range.high.number
                      : k == 0       ? range.low.number
                                     : axis.number_at(share));
  }
  if (std::adjacent_find(numbers.begin(), numbers.end(),
                         [](double a, double b) { return !(a < b); }) !=
      numbers.end())
    refuse(key, "has values that lie too close to be told apart",
           "fewer of them, or write each out");
  axis.numbers = std::move(numbers);
  for (const double number : axis.numbers)
    axis.texts.push_back(axis.text_of(number));
  return axis;
}

SweepAxis axis_of(const std::string& key, std::vector<std::string> pieces) {
  SweepAxis axis;
  axis.key = key;
  std::vector<Written> numbers;
  for (const std::string& piece : pieces) {
    if (piece.empty())
      refuse(key, "has nothing between two commas",
             std::string("write: ") + kForm);
    if (is_beyond_numbers(piece))
      refuse(key, in_quotes(piece) + " is no number",
             "one that a computer can hold");
    if (const auto number = written_number(piece)) numbers.push_back(*number);
  }
  if (numbers.size() == pieces.size()) {
    // "0.2,0.4,0.8 A": the unit of all stands behind the last.
    const std::string unit = numbers.back().unit;
    for (Written& w : numbers) {
      if (w.unit.empty()) w.unit = unit;
      if (w.unit != unit)
        refuse(key,
               fmt::format("is in {} and in {}", in_quotes(w.unit),
                           in_quotes(unit)),
               "all values in one unit, as in 0.2,0.4,0.8 A");
      axis.numbers.push_back(w.number);
      axis.texts.push_back(with_unit(w.digits, unit));
    }
    axis.unit = unit;
  } else {
    axis.texts = std::move(pieces);
  }
  std::set<std::string> seen;
  std::set<double> known;
  for (std::size_t k = 0; k < axis.texts.size(); ++k)
    if (!seen.insert(axis.texts[k]).second ||
        (!axis.has_words() && !known.insert(axis.numbers[k]).second))
      refuse(key, "has " + in_quotes(axis.texts[k]) + " twice",
             "each value once");
  return axis;
}

}  // namespace

double SweepAxis::number_at(double share) const {
  const double low = numbers.front(), high = numbers.back();
  const double number =
      by_factor ? read_again(fmt::format(
                      "{:.{}g}", low * std::pow(high / low, share), kDigits))
                : rounded(std::lerp(low, high, share), high - low);
  // Where an end has more digits rounding may go beyond it.
  return std::clamp(number, low, high);
}

std::size_t SweepAxis::value_at(double share) const {
  return std::min(
      texts.size() - 1,
      static_cast<std::size_t>(share * static_cast<double>(texts.size())));
}

std::string SweepAxis::text_of(double number) const {
  return with_unit(fmt::format("{}", number), unit);
}

SweepAxis sweep_axis(const std::string& vary) {
  if (vary.size() > kLongest)
    throw InputError("--vary", in_quotes(vary) + " is too long", kForm);
  const auto equals = vary.find('=');
  if (equals == std::string::npos)
    throw InputError("--vary", in_quotes(vary) + " has no equals sign", kForm);
  const std::string key(trimmed(std::string_view(vary).substr(0, equals)));
  const std::string_view values =
      trimmed(std::string_view(vary).substr(equals + 1));
  if (key.empty() || values.empty())
    throw InputError("--vary", in_quotes(vary) + " says too little", kForm);
  if (!is_printable(vary, kLongest))
    throw InputError("--vary", in_quotes(vary) + " is no plain text", kForm);
  std::vector<std::string> pieces = pieces_of(values);
  if (pieces.size() > kMostValues)
    refuse(key, fmt::format("has {} values", pieces.size()),
           fmt::format("{} at most", kMostValues));
  const bool quoted = values.front() == '"' || values.front() == '\'' ||
                      values.front() == '[' || values.front() == '{';
  if (pieces.size() == 1 && !quoted &&
      values.find("..") != std::string_view::npos)
    return axis_of(key, range_in(key, values));
  return axis_of(key, std::move(pieces));
}

}  // namespace thinspot::io
