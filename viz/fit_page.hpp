#pragma once

#include <string>
#include <vector>

namespace thinspot::viz {

/// A table of plain texts.
struct PageTable {
  std::vector<std::string> heads;
  std::vector<std::vector<std::string>> rows;
};

/// What the page of a fit says and shows; all texts plain.
struct FitPageText {
  std::string title, set_up, verdict, scatter, fragment, fitted_file;
  PageTable values, readings;
  std::vector<std::string> forecast, outliers, untold, next, cautions;
  std::string residuals;  ///< residuals_chart()
  /// thickness_chart() by the case as it was and by the fitted values.
  std::string thickness_before, thickness_now;
};

/// One self-contained HTML page that opens offline and needs no scripts.
std::string fit_page(const FitPageText& text);

}  // namespace thinspot::viz
