// What a plan changes of the steps, in words.
#include "io/number_text.hpp"
#include "io/plan_changes.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Case;
using solver::Step;
using Lines = std::vector<std::string>;

/// Steps told one by one; more of them are told in sum.
constexpr std::size_t kFew = 4;

bool moves_alike(const Case& a, const Case& b) {
  return std::equal(a.steps.begin(), a.steps.end(), b.steps.begin(),
                    b.steps.end(), [](const Step& x, const Step& y) {
                      return x.motion == y.motion && x.turning == y.turning;
                    });
}

bool same_time(double a, double b) { return std::abs(a - b) < 0.5; }

bool times_alike(const Case& c) {
  return std::all_of(c.steps.begin(), c.steps.end(), [&](const Step& s) {
    return same_time(s.duration.value, c.steps.front().duration.value);
  });
}

/// What hands do between two steps.
std::string motion_words(const mesh::Motion& from, const mesh::Motion& to) {
  Lines said;
  if (from.flip != to.flip)
    said.emplace_back("flip the part, left and right change places,");
  double turn = std::remainder(to_degrees(to.turn - from.turn), 360.0);
  if (to.flip) turn = -turn;
  if (std::abs(turn) > 1e-6)
    said.push_back(fmt::format("turn the part by {}°{}", digits(std::abs(turn)),
                               std::abs(turn) > 179.9 ? ""
                               : turn > 0             ? " counter-clockwise"
                                                      : " clockwise"));
  return fmt::format("{}", fmt::join(said, " and "));
}

std::string turning_words(const solver::Turning& t) {
  if (t.positions == 0)
    return fmt::format("let the part turn at {} rpm", digits(60 * t.rate));
  return fmt::format(
      "turn the part through {} positions evenly round{}", t.positions,
      t.dwell > 0 ? ", " + duration_text(t.dwell) + " at each, over again"
                  : "");
}

/// Each turn with when it is due.
Lines turns_of(const Case& c) {
  Lines lines;
  double passed = 0;
  bool alike = c.steps.size() > 2 && times_alike(c);
  for (std::size_t k = 1; k < c.steps.size(); ++k) {
    passed += c.steps[k - 1].duration.value;
    const std::string what =
        motion_words(c.steps[k - 1].motion, c.steps[k].motion);
    alike = alike && (lines.empty() || lines.front().starts_with(what + " ")) &&
            !what.empty();
    if (!what.empty())
      lines.push_back(what + " after " + duration_text(passed));
  }
  if (alike) {
    const std::string what = motion_words(c.steps[0].motion, c.steps[1].motion);
    return {fmt::format("{} every {}, {} times", what,
                        duration_text(c.steps.front().duration.value),
                        c.steps.size() - 1)};
  }
  return lines;
}

bool is_handled(const Case& c) {
  return std::any_of(c.steps.begin(), c.steps.end(), [&](const Step& s) {
    return s.turning || !(s.motion == c.steps.front().motion);
  });
}

std::string time_words(const Case& drawn, const Case& planned) {
  const double was = total_duration(drawn), is = total_duration(planned);
  const std::string in_all = planned.steps.size() > 1 ? " in all" : "";
  std::string each;
  if (planned.steps.size() > 1 && planned.steps.size() <= kFew) {
    Lines times;
    for (const Step& s : planned.steps)
      times.push_back(duration_text(s.duration.value));
    each = times_alike(planned)
               ? fmt::format(", {} in each step", times.front())
               : fmt::format(", {}", fmt::join(times, " then "));
  }
  return fmt::format("plate for {}{}{}, in place of {}", duration_text(is),
                     in_all, each, duration_text(was));
}

}  // namespace

Lines step_changes(const Case& drawn, const Case& planned) {
  Lines lines;
  if (!moves_alike(drawn, planned)) {
    lines = turns_of(planned);
    for (const Step& s : planned.steps)
      if (s.turning) {
        lines.push_back(turning_words(*s.turning));
        break;
      }
    if (lines.empty() && is_handled(drawn))
      lines.emplace_back("do not turn the part");
  }
  const bool same =
      drawn.steps.size() == planned.steps.size() &&
      std::equal(drawn.steps.begin(), drawn.steps.end(), planned.steps.begin(),
                 [](const Step& a, const Step& b) {
                   return same_time(a.duration.value, b.duration.value);
                 });
  if (!same) lines.push_back(time_words(drawn, planned));
  return lines;
}

}  // namespace thinspot::io
