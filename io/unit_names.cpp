#include "io/unit_names.hpp"

#include <array>
#include <utility>

namespace thinspot::io {

namespace {

using Pair = std::pair<std::string_view, std::string_view>;

/// Longer ones cannot be a unit, and UDUNITS' parser is not made for them.
constexpr std::size_t kLongestUnit = 40;

constexpr std::array<Pair, 14> kSigns{{
    {"\u00B5", "u"},    // micro sign
    {"\u03BC", "u"},    // Greek mu
    {"\u2126", "ohm"},  // ohm sign
    {"\u03A9", "ohm"},  // Greek omega
    {"\u00B0", "deg"},  // degree sign
    {"\u00B7", "."},    // middle dot
    {"\u22C5", "."},    // dot operator
    {"\u00D7", "."},    // multiplication sign
    {"\u00B2", "2"},    // superscript two
    {"\u00B3", "3"},    // superscript three
    {"\u00B9", "1"},    // superscript one
    {"\u207B", "-"},    // superscript minus
    {"\u2212", "-"},    // minus sign
    {"\u00A0", " "},    // space that does not break
}};

constexpr std::array<Pair, 18> kWords{{
    {"deg", "degree"},
    {"degs", "degree"},
    {"thou", "mil"},
    {"asd", "(A/dm2)"},
    {"ASD", "(A/dm2)"},
    {"asf", "(A/ft2)"},
    {"ASF", "(A/ft2)"},
    {"secs", "s"},
    {"mins", "min"},
    {"hrs", "h"},
    {"gal", "(231 in3)"},
    {"gals", "(231 in3)"},
    {"gallon", "(231 in3)"},  // UDUNITS' own is rounded
    {"gallons", "(231 in3)"},
    {"sqft", "ft2"},
    {"sqin", "in2"},
    {"sqcm", "cm2"},
    {"sqdm", "dm2"},
}};

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string replace_all(std::string text, std::string_view what,
                        std::string_view with) {
  for (auto at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
  return text;
}

std::string in_ascii(std::string text, Dimension dimension) {
  for (const auto& [from, to] : kSigns) text = replace_all(text, from, to);
  if (dimension == Dimension::length) {
    text = replace_all(text, "\u2033", "in");
    text = replace_all(text, "\u2032", "ft");
    text = replace_all(text, "''", "in");
    text = replace_all(text, "\"", "in");
    text = replace_all(text, "'", "ft");
  }
  if (dimension == Dimension::temperature)
    for (const char* degree : {"degrees ", "degree ", "deg "})
      text = replace_all(text, degree, "deg");
  return text;
}

std::string word_for(std::string_view word, Dimension dimension) {
  if (dimension == Dimension::temperature) {
    if (word == "C") return "degC";
    if (word == "F") return "degF";
  }
  const bool turning = dimension == Dimension::rate;
  if ((word == "rpm" || word == "RPM") && turning) return "(1/min)";
  if (word == "rev" || word == "revs" || word == "turn" || word == "turns")
    return turning ? "1" : "turn";
  for (const auto& [trade, udunits] : kWords)
    if (word == trade) return std::string(udunits);
  return std::string(word);
}

/// Digits stand for exponents only ("dm2", "cm^2", "m-1"), and a 1 may begin a
/// unit like "1/min"; anything else is a second number.
bool is_product_of_units(std::string_view unit) {
  if (unit.empty() || unit.size() > kLongestUnit) return false;
  int open = 0;
  for (std::size_t k = 0; k < unit.size(); ++k) {
    const char c = unit[k];
    const char before = k > 0 ? unit[k - 1] : ' ';
    if (is_letter(c) || c == '_') continue;
    if (is_digit(c)) {
      const bool reciprocal = k == 0 && c == '1' && unit.size() > 2 &&
                              unit[1] == '/' && !is_digit(unit[2]);
      if (!reciprocal && !is_letter(before) && !is_digit(before) &&
          before != '^' && before != '-')
        return false;
    } else if (c == '(') {
      if (is_letter(before) || ++open > 4) return false;
    } else if (c == ')') {
      if (--open < 0) return false;
    } else if (c == '-') {
      if (!is_letter(before) && before != '^') return false;
    } else if (std::string_view(" /*.^%").find(c) == std::string_view::npos) {
      return false;
    }
  }
  return open == 0;
}

}  // namespace

UnitName udunits_name(std::string_view unit, Dimension dimension) {
  if (unit.size() > kLongestUnit) return {};
  std::string ascii = in_ascii(std::string(unit), dimension);
  if (ascii.starts_with('/')) ascii = '1' + ascii;
  if (!is_product_of_units(ascii)) return {};
  UnitName result;
  for (std::size_t k = 0; k < ascii.size();) {
    std::size_t end = k;
    while (end < ascii.size() && is_letter(ascii[end])) ++end;
    if (end == k) {
      result.spelling += ascii[k++];
      continue;
    }
    const std::string_view word = std::string_view(ascii).substr(k, end - k);
    k = end;
    // "A/sq ft": the word that follows is squared.
    if (word == "sq" && k < ascii.size() && ascii[k] == ' ') {
      std::size_t last = ++k;
      while (last < ascii.size() && is_letter(ascii[last])) ++last;
      result.spelling += ascii.substr(k, last - k) + "2";
      k = last;
      continue;
    }
    if ((word == "oz" || word == "ounce" || word == "ounces") &&
        dimension == Dimension::mass)
      return {"",
              "an ounce may be 28.35 g or, of precious metal, 31.10 g: "
              "give grams"};
    // "lg (re m)" is a logarithm to UDUNITS.
    if (word == "re" || word == "Re" || word == "RE" || word == "rE") return {};
    result.spelling += word_for(word, dimension);
  }
  return result;
}

std::string small_words(std::string_view spelling) {
  std::string result(spelling);
  for (std::size_t k = 0; k < result.size();) {
    std::size_t end = k;
    while (end < result.size() && is_letter(result[end])) ++end;
    if (end - k >= 4)
      for (std::size_t j = k; j < end; ++j)
        if (result[j] >= 'A' && result[j] <= 'Z')
          result[j] = static_cast<char>(result[j] - 'A' + 'a');
    k = end + (end == k ? 1 : 0);
  }
  return result;
}

}  // namespace thinspot::io
