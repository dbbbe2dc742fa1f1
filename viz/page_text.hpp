#pragma once

#include <string_view>

namespace thinspot::viz {

/// The report page with style and script inside, and the marks "@@SUMMARY@@",
/// "@@SECTION@@", "@@THICKNESS@@" where data and pictures go, each once. Made
/// at build time from viz/page by page/embed.cmake.
std::string_view page_text();

/// The page of a plan, likewise, with "@@CARD@@", "@@PICTURES@@",
/// "@@TRADE_OFF@@", "@@CHANGES@@" and "@@PLAN@@".
std::string_view plan_page_text();

/// The page of a comparison, likewise, with "@@PICTURE@@" and
/// "@@COMPARISON@@".
std::string_view comparison_page_text();

/// The page of a fit, without a script: "@@NAME@@", "@@TITLE@@", "@@SET_UP@@",
/// "@@SAID@@", "@@VALUES@@", "@@RESIDUALS@@", "@@READINGS@@", "@@PICTURES@@",
/// "@@REST@@".
std::string_view fit_page_text();

}  // namespace thinspot::viz
