#include "io/cli/fit_report.hpp"

#include "io/cli/terminal.hpp"
#include "io/cli/wrap.hpp"
#include "io/quantity_words.hpp"
#include "io/reading_text.hpp"
#include "viz/fit_page.hpp"
#include "viz/residuals_chart.hpp"
#include "viz/thickness_chart.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io::cli {

namespace {

using solver::Fit;
using solver::FittedReading;
using solver::FittedValue;
using Lines = std::vector<std::string>;

constexpr std::size_t kLines = 40;
/// Of the table of readings; the page has them all.
constexpr std::size_t kMostRows = 8;

viz::PageTable values_table(const Fit& f) {
  viz::PageTable t{{"value", "in the case", "by the readings (95 %)", "key"},
                   {}};
  for (const FittedValue& v : f.values)
    t.rows.push_back(
        {quantity_in_words(v.key), stated_value_text(v),
         v.given_up ? "not told by the readings" : fitted_value_text(v),
         v.key});
  return t;
}

viz::PageTable readings_table(const Fit& f) {
  viz::PageTable t{{"reading", "read", "case before", "fitted",
                    "fitted less read, in its ±", "line", "how it was read"},
                   {}};
  for (const FittedReading& r : f.readings) {
    const auto text = [&](double value) {
      return reading_value_text(r.reading.of, value);
    };
    std::string how = r.reading.method;
    if (!r.reading.plus_minus_source.empty())
      how += fmt::format("{}± {}", how.empty() ? "" : "; ",
                         r.reading.plus_minus_source);
    t.rows.push_back({reading_name(r.reading), read_text(r.reading),
                      text(r.before), text(r.now),
                      off_text(r) + (r.outlier ? ", outlier" : ""),
                      std::to_string(r.reading.line), how});
  }
  return t;
}

std::vector<viz::ResidualRow> residual_rows(const Fit& f) {
  std::vector<viz::ResidualRow> rows;
  for (const FittedReading& r : f.readings) {
    const auto beyond = [&](double value) {
      return (value - r.reading.value) / r.reading.plus_minus;
    };
    rows.push_back(
        {reading_name(r.reading),
         fmt::format("read {}; {} before, {} now", read_text(r.reading),
                     reading_value_text(r.reading.of, r.before),
                     reading_value_text(r.reading.of, r.now)),
         beyond(r.before), beyond(r.now), r.outlier});
  }
  return rows;
}

std::string readings_lines(const Fit& f) {
  const auto row = [](const std::string& name, const std::string& read,
                      const std::string& before, const std::string& now) {
    return fmt::format("{}{}{}{}\n", padded(name, 42), padded_left(read, 16),
                       padded_left(before, 11), padded_left(now, 11));
  };
  std::string text = row("Reading", "read", "before", "now");
  const std::size_t shown = std::min(f.readings.size(), kMostRows);
  for (std::size_t k = 0; k < shown; ++k) {
    const FittedReading& r = f.readings[k];
    std::string name = reading_name(r.reading);
    if (columns(name) > 41)
      name = wrapped(name, 0, 40).substr(0, name.find('\n'));
    name = name.substr(0, name.find('\n'));
    text += row(name, read_text(r.reading),
                reading_value_text(r.reading.of, r.before),
                reading_value_text(r.reading.of, r.now));
  }
  if (shown < f.readings.size())
    text +=
        fmt::format("… and {} more in fit.html\n", f.readings.size() - shown);
  return text;
}

}  // namespace

FitReport fit_report(const Fit& f, const FitWords& words,
                     const FittedCase& written) {
  FitReport report;
  report.residuals = viz::residuals_chart(f.stated, residual_rows(f));
  viz::FitPageText page;
  page.title = f.stated.title;
  page.set_up =
      fmt::format("{}: {} readings", f.stated.file, f.readings.size());
  page.verdict = words.verdict;
  page.scatter = words.scatter;
  page.fragment = written.fragment;
  page.fitted_file = "fitted.toml";
  page.values = values_table(f);
  page.readings = readings_table(f);
  page.forecast = words.forecast;
  page.outliers = words.outliers;
  page.untold = words.untold;
  page.next = words.next;
  page.residuals = report.residuals;
  if (f.forecast_now) {
    page.cautions = f.forecast_now->cautions;
    page.thickness_before = viz::thickness_chart(*f.forecast_before);
    page.thickness_now = viz::thickness_chart(*f.forecast_now);
  }
  report.page = viz::fit_page(page);
  return report;
}

std::string fit_summary(const Fit& f, const FitWords& words,
                        const FittedCase& written,
                        const std::filesystem::path& folder) {
  std::string text = wrapped(f.stated.title) + wrapped(words.verdict) + "\n" +
                     readings_lines(f) + wrapped(words.scatter);
  const std::string last = fmt::format("To paste: {}\nOpen {}\n",
                                       (folder / "fragment.toml").string(),
                                       (folder / "fit.html").string());
  Lines rest;
  for (const std::string& key : written.unwritten)
    rest.push_back(fmt::format("{} has no place in the file.", key));
  for (const auto* lines :
       {&words.outliers, &words.untold, &words.next, &words.forecast})
    rest.insert(rest.end(), lines->begin(), lines->end());
  if (f.forecast_now && !f.forecast_now->cautions.empty())
    rest.push_back("Caution: " + f.forecast_now->cautions.front());
  std::size_t shown = 0;
  for (; shown < rest.size(); ++shown) {
    const std::string line = wrapped(rest[shown], 2);
    if (count_lines(text) + count_lines(line) + count_lines(last) + 1 > kLines)
      break;
    text += line;
  }
  if (shown < rest.size())
    text += fmt::format("… and {} more in fit.html\n", rest.size() - shown);
  return text + last;
}

void print_fit(const Fit& f, const FitWords& words, const FittedCase& written,
               const std::filesystem::path& folder) {
  const std::string text = fit_summary(f, words, written, folder);
  const std::string title = wrapped(f.stated.title);
  const std::string verdict = wrapped(words.verdict);
  print(stdout, title);
  print_bold(stdout, verdict);
  print(stdout, text.substr(title.size() + verdict.size()));
}

}  // namespace thinspot::io::cli
