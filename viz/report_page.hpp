#pragma once

#include <string>

namespace thinspot::viz {

/// One self-contained HTML page that opens offline: verdict, pictures, tables,
/// what was assumed, cautions.
/// @param summary_json  the text of summary.json
/// @param section_svg   as section_picture() returns it
/// @param thickness_svg as thickness_chart() returns it
/// @param steps_svg     as step_strip() returns it; empty: no such picture
std::string report_page(const std::string& summary_json,
                        const std::string& section_svg,
                        const std::string& thickness_svg,
                        const std::string& steps_svg = {});

}  // namespace thinspot::viz
