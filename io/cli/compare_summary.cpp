#include "io/cli/compare_summary.hpp"

#include "io/cli/wrap.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io::cli {

namespace {

/// Copies told on a terminal; the page has them all.
constexpr std::size_t kMostCopies = 8;
constexpr std::size_t kMostReadings = 20;
constexpr std::size_t kReading = 28, kRead = 17, kForecast = 26;
constexpr std::size_t kName = 23, kValue = 10, kDifference = 22;

std::string row(const ComparedRow& r) {
  std::string text = padded(r.name, kName) + padded_left(r.a, kValue) +
                     padded_left(r.b, kValue) + "  ";
  text += r.remark.empty() ? r.difference
                           : padded(r.difference, kDifference) + r.remark;
  return text + "\n";
}

/// The name cut to its column, as places may have long ones.
std::string read_row(const ReadRow& r) {
  std::string name = wrapped(r.name, 0, kReading);
  const std::size_t end = name.find('\n');
  const bool cut = end + 1 < name.size();
  name = name.substr(0, end) + (cut ? " …" : "");
  return padded(name, kReading + 3) + padded(r.read, kRead) +
         padded(r.forecast, kForecast) + padded_left(r.z, 6) + "\n";
}

std::string table(const char* heading, const std::vector<ComparedRow>& rows,
                  std::size_t most) {
  std::string text = row({heading, "A", "B", "B less A", ""});
  const std::size_t shown = std::min(most, rows.size());
  for (std::size_t k = 0; k < shown; ++k) text += row(rows[k]);
  if (shown < rows.size())
    text += fmt::format("… and {} more on the page\n", rows.size() - shown);
  return text;
}

std::string named(const char* letter, const solver::KeptResult& kept) {
  return wrapped(
      fmt::format("{}: {}, {}", letter, kept.name, kept.result.used.title), 3);
}

}  // namespace

std::string compare_summary(const solver::KeptResult& a,
                            const solver::KeptResult& b,
                            const ComparisonWords& words,
                            const std::filesystem::path& folder) {
  std::string text = wrapped(words.verdict) + named("A", a) + named("B", b) +
                     "\n" + table("", words.rows, words.rows.size());
  if (!words.places.empty()) text += "\n";
  for (const std::string& place : words.places) text += wrapped(place, 2);
  if (!words.copies.empty())
    text += "\n" + table("Mean of each copy", words.copies, kMostCopies);
  return text + "Open " + (folder / "compare.html").string() + "\n";
}

std::string readings_summary(const solver::KeptResult& kept,
                             const std::string& file,
                             const ReadingsWords& words,
                             const std::filesystem::path& folder) {
  std::string text = wrapped(words.verdict) +
                     wrapped(fmt::format("Forecast: {}, {}", kept.name,
                                         kept.result.used.title),
                             10) +
                     wrapped("Readings: " + file, 10) + "\n" +
                     read_row({"", "read", "forecast", "", "z"});
  const std::size_t shown = std::min(kMostReadings, words.rows.size());
  for (std::size_t k = 0; k < shown; ++k) text += read_row(words.rows[k]);
  if (shown < words.rows.size())
    text +=
        fmt::format("… and {} more on the page\n", words.rows.size() - shown);
  text += "\n";
  for (const std::string& place : words.places) text += wrapped(place, 2);
  return text + "Open " + (folder / "compare.html").string() + "\n";
}

}  // namespace thinspot::io::cli
