#pragma once

#include "viz/sweep_chart.hpp"
#include "viz/text_layout.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::viz {

/// A number that can be drawn. What is not finite, or beyond all that is a
/// quantity, is no result.
bool is_result(double value);

/// Those of them that are.
std::vector<double> results_of(const std::vector<double>& values);

/// As a page writes it: "um" with its Greek letter, "A/dm2" with a small 2.
std::string unit_words(const std::string& unit);

/// "anode.sheet.gap (mm)".
std::string name_with_unit(const std::string& name, const std::string& unit);

/// Likewise, the name cut so that both fit into the width.
std::string name_with_unit(const std::string& name, const std::string& unit,
                           const TextStyle& style, double width);

/// "12.3 mm", without a unit "12.3"; the space does not break.
std::string with_unit(double value, const std::string& unit);

/// "anode.sheet.gap = 12 mm" of its k-th value.
std::string setting_words(const SweptKey& key, std::size_t k);

/// What all settings begin with, up to the sign "=", where each is of that one
/// key alone: it need not be said with each. Else empty.
std::string common_start(const std::vector<std::string>& settings);

/// "1 more key", "3 more keys".
std::string more_words(std::size_t count, const std::string& thing);

/// Whether a result meets what is wanted. @pre figure.wanted
bool meets(const SweptFigure& figure, double value);

/// "target: at least 10 um".
std::string target_words(const SweptFigure& figure);

/// Index of the best result, the first of equals; their number where there is
/// none.
std::size_t best_of(const SweptFigure& figure,
                    const std::vector<double>& values);

/// "8.1 to 12.4 um", "all 3 um", "no point has a result".
std::string range_words(const SweptFigure& figure,
                        const std::vector<double>& values);

}  // namespace thinspot::viz
