#pragma once

#include <string>

namespace thinspot::viz {

/// The pictures of a page, as the functions of these names return them.
struct PagePictures {
  std::string section;     ///< section_picture()
  std::string thickness;   ///< thickness_chart()
  std::string why = {};    ///< why_picture(); empty: no such picture
  std::string steps = {};  ///< step_strip(); empty: no such picture
  std::string card = {};   ///< bench_card(); empty: no such picture
};

/// One self-contained HTML page that opens offline: verdict, pictures, tables,
/// what was assumed, cautions.
/// @param summary_json  the text of summary.json
/// @param what_if_json  what other settings are answered from, as
///                      viz/page/what_if_model.js reads it; "[]": nothing
std::string report_page(const std::string& summary_json,
                        const std::string& what_if_json,
                        const PagePictures& pictures);

}  // namespace thinspot::viz
