#pragma once

#include <string>

namespace thinspot::viz {

/// One self-contained HTML page that opens offline: what two results, or a
/// result and readings, differ by, in words, as a picture and in tables.
/// @param comparison_json  the text of compare.json
/// @param picture          comparison_chart() or readings_chart()
std::string comparison_page(const std::string& comparison_json,
                            const std::string& picture);

}  // namespace thinspot::viz
