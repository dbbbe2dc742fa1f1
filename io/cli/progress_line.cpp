#include "io/cli/progress_line.hpp"

#include "io/cli/wrap.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

namespace thinspot::io::cli {

namespace {

/// Room that a cut stage needs beside the time left, or it says nothing.
constexpr int kLeastStage = 12;
constexpr int kPercent = 5;  // "100 %"

bool continues(char c) {
  return (static_cast<unsigned char>(c) & 0xc0) == 0x80;
}

int width_of(std::string_view text) { return static_cast<int>(columns(text)); }

/// Cut to a number of columns, which two dots show; empty where that leaves
/// next to nothing.
std::string shortened(const std::string& text, int room) {
  if (width_of(text) <= room) return text;
  if (room < 5) return "";
  std::size_t end = 0;
  for (int left = room - 2; end < text.size(); ++end)
    if (!continues(text[end]) && left-- == 0) break;
  while (end > 0 && (text[end - 1] == ' ' || text[end - 1] == ',')) --end;
  return text.substr(0, end) + "..";
}

std::string words_of(const solver::Stage& stage) {
  std::string text = stage.name;
  if (stage.of == 0) return text;
  if (!text.empty()) text += ", ";
  if (*stage.unit) text += fmt::format("{} ", stage.unit);
  return text + fmt::format("{} of {}", stage.number, stage.of);
}

/// Of the bar, without its brackets, in so many columns of the line.
int bar_width(int room) {
  if (room >= 90) return 24;
  if (room >= 60) return 16;
  return room >= 40 ? 10 : 0;
}

std::string bar_of(double share, int width, bool colour) {
  const auto full = static_cast<std::size_t>(share * width);
  const std::string done(full, '#');
  const std::string rest(static_cast<std::size_t>(width) - full, '.');
  if (!colour || full == 0) return fmt::format("[{}{}] ", done, rest);
  return fmt::format("[\x1b[36m{}\x1b[0m{}] ", done, rest);
}

std::string stage_and_time(const std::string& stage, const std::string& time,
                           int room) {
  if (time.empty()) return shortened(stage, room);
  if (stage.empty()) return shortened(time, room);
  const std::string tail = ", " + time;
  const int left = room - width_of(tail);
  if (left < std::min(width_of(stage), kLeastStage))
    return shortened(stage, room);
  return shortened(stage, left) + tail;
}

}  // namespace

std::string stage_words(const solver::Report& report) {
  const std::string over = words_of(report.over);
  const std::string stage = words_of(report.stage);
  return over + (over.empty() || stage.empty() ? "" : ", ") + stage;
}

std::string time_left_words(double seconds) {
  constexpr double kMinute = 60;
  if (seconds < 7.5) return "a few seconds left";
  if (seconds < kMinute - 5)
    return fmt::format("about {:.0f} s left", 5 * std::round(seconds / 5));
  if (seconds < kHour - kMinute / 2)
    return fmt::format("about {:.0f} min left", std::round(seconds / kMinute));
  const auto tens = static_cast<long>(std::round(seconds / (10 * kMinute)));
  const std::string minutes =
      tens % 6 ? fmt::format(" {} min", 10 * (tens % 6)) : "";
  return fmt::format("about {} h{} left", tens / 6, minutes);
}

std::string progress_line(const solver::Report& report,
                          std::optional<double> seconds_left, int width,
                          bool colour) {
  const int all = width - 1;
  if (all < kPercent) return "";
  const double share = std::clamp(report.share, 0.0, 1.0);
  const int bar = bar_width(all);
  std::string line = bar > 0 ? bar_of(share, bar, colour) : "";
  line += fmt::format("{:3.0f} %", std::floor(100 * share));
  const int used = kPercent + (bar > 0 ? bar + 3 : 0) + 2;
  const std::string text = stage_and_time(
      stage_words(report), seconds_left ? time_left_words(*seconds_left) : "",
      all - used);
  return text.empty() ? line : line + "  " + text;
}

}  // namespace thinspot::io::cli
