#include "viz/sweep_words.hpp"

#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <string_view>
#include <utility>

namespace thinspot::viz {

namespace {

/// Sums and differences of such numbers are still numbers.
constexpr double kHugest = 1e100;

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

/// Replaced where it stands as a word of its own.
void replace_word(std::string& text, const std::string& from,
                  const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos;) {
    const std::size_t end = at + from.size();
    const bool whole = (at == 0 || !is_letter(text[at - 1])) &&
                       (end == text.size() || !is_letter(text[end]));
    if (whole) text.replace(at, from.size(), to);
    at += whole ? to.size() : from.size();
  }
}

}  // namespace

bool is_result(double value) {
  return std::isfinite(value) && std::abs(value) < kHugest;
}

std::vector<double> results_of(const std::vector<double>& values) {
  std::vector<double> results;
  std::copy_if(values.begin(), values.end(), std::back_inserter(results),
               is_result);
  return results;
}

std::string unit_words(const std::string& unit) {
  static const std::array<std::pair<const char*, const char*>, 5> shown = {
      {{"um", "\u00B5m"},
       {"mm2", "mm\u00B2"},
       {"cm2", "cm\u00B2"},
       {"dm2", "dm\u00B2"},
       {"degC", "\u00B0C"}}};
  std::string text = unit;
  for (const auto& [from, to] : shown) replace_word(text, from, to);
  return text;
}

std::string name_with_unit(const std::string& name, const std::string& unit) {
  return unit.empty() ? name : name + " (" + unit_words(unit) + ")";
}

std::string name_with_unit(const std::string& name, const std::string& unit,
                           const TextStyle& style, double width) {
  const std::string behind =
      shortened(clean_text(name_with_unit("", unit)), style, width / 2);
  return shortened(clean_text(name), style, width - text_width(behind, style)) +
         behind;
}

std::string with_unit(double value, const std::string& unit) {
  const std::string number = digits(value);
  return unit.empty() ? number : number + "\u00A0" + unit_words(unit);
}

std::string setting_words(const SweptKey& key, std::size_t k) {
  return key.name + " =\u00A0" +
         (k < key.words.size() ? key.words[k]
                               : with_unit(key.values[k], key.unit));
}

std::string common_start(const std::vector<std::string>& settings) {
  constexpr std::string_view sign = " =", firm_space = "\u00A0";
  if (settings.size() < 2) return {};
  const std::string& first = settings[0];
  std::size_t end = first.find(sign);
  if (end == std::string::npos) return {};
  end += sign.size();
  if (first.compare(end, firm_space.size(), firm_space) == 0)
    end += firm_space.size();
  else if (first.compare(end, 1, " ") == 0)
    ++end;
  const std::string start = first.substr(0, end);
  const bool all =
      std::all_of(settings.begin(), settings.end(), [&](const std::string& s) {
        return s.compare(0, start.size(), start) == 0 &&
               s.find(sign, start.size()) == std::string::npos;
      });
  return all ? start : "";
}

std::string more_words(std::size_t count, const std::string& thing) {
  return fmt::format("{} more {}{}", count, thing, count == 1 ? "" : "s");
}

bool meets(const SweptFigure& figure, double value) {
  return figure.better == Better::less ? value <= *figure.wanted
                                       : value >= *figure.wanted;
}

std::string target_words(const SweptFigure& figure) {
  const char* const side = figure.better == Better::more   ? "at least "
                           : figure.better == Better::less ? "at most "
                                                           : "";
  return std::string("target: ") + side +
         with_unit(*figure.wanted, figure.unit);
}

std::size_t best_of(const SweptFigure& figure,
                    const std::vector<double>& values) {
  std::size_t best = values.size();
  if (figure.better == Better::neither) return best;
  for (std::size_t k = 0; k < values.size(); ++k) {
    if (!is_result(values[k])) continue;
    if (best == values.size() ||
        (figure.better == Better::more ? values[k] > values[best]
                                       : values[k] < values[best]))
      best = k;
  }
  return best;
}

std::string range_words(const SweptFigure& figure,
                        const std::vector<double>& values) {
  const std::vector<double> results = results_of(values);
  if (results.empty()) return "no point has a result";
  const auto [least, most] =
      std::minmax_element(results.begin(), results.end());
  const std::string low = digits(*least);
  const std::string high = with_unit(*most, figure.unit);
  return with_unit(*least, figure.unit) == high ? "all " + high
                                                : low + " to " + high;
}

}  // namespace thinspot::viz
