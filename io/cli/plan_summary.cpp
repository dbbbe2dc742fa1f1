#include "io/cli/plan_summary.hpp"

#include "io/card_steps.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/wrap.hpp"
#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/plan_changes.hpp"
#include "io/plan_json.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace thinspot::io::cli {

namespace {

using solver::Plan;
using solver::PlanFigures;
using Lines = std::vector<std::string>;

/// Lines in all, and what a list may take of them before it is cut short; the
/// folder has the whole.
constexpr std::size_t kLines = 40;
constexpr std::size_t kMostFirst = 5, kLinesToDo = 11, kMostCautions = 3;
/// Kept for the most serious caution.
constexpr std::size_t kCautionLines = 4;

/// The first items, as many as the room in lines holds beside the word that
/// there are more; nothing where not even one goes in.
std::string cut_to(std::size_t room, const Lines& all, const char* where) {
  std::string text;
  std::size_t shown = 0, used = 0;
  for (; shown < all.size(); ++shown) {
    const std::size_t more = shown + 1 < all.size() ? 1 : 0;
    if (used + count_lines(all[shown]) + more > room) break;
    used += count_lines(all[shown]);
    text += all[shown];
  }
  if (shown == 0 || shown == all.size()) return text;
  return text + fmt::format("… and {} more {}\n", all.size() - shown, where);
}

/// Changes of the tank, then the steps as the card has them.
std::string to_do(const Plan& plan) {
  Lines items = tank_changes(plan.drawn.content, plan.set_ups.front().content);
  if (plan.set_ups.front().result)
    for (const std::string& step : card_steps(*plan.set_ups.front().result))
      items.push_back(step);
  Lines lines;
  for (std::size_t k = 0; k < items.size(); ++k) {
    std::string text = capital(items[k]);
    if (!text.ends_with('.')) text += '.';
    lines.push_back(wrapped(fmt::format("{:>2}. {}", k + 1, text), 4));
  }
  return "To do\n" + cut_to(kLinesToDo, lines, "on the card, plan.svg");
}

std::string row(const std::string& name, const std::string& drawn,
                const std::string& planned) {
  return fmt::format("{}{}{}\n", padded(name, 26), padded_left(drawn, 14),
                     padded_left(planned, 14));
}

std::string table(const Plan& plan) {
  const PlanFigures &was = plan.drawn.figures,
                    &is = plan.set_ups.front().figures;
  const auto each = [&](const char* name, auto text) {
    return row(name, text(was), text(is));
  };
  return row("", "drawn", "planned") +
         each("Time at the bench",
              [](const PlanFigures& f) {
                return f.least > 0 ? time_estimate(f.bench)
                                   : std::string("no end");
              }) +
         each("Largest over least", evenness_text) +
         each("Thinnest spot then",
              [](const PlanFigures& f) { return micrometres(f.least); }) +
         each("Metal",
              [](const PlanFigures& f) {
                return digits(to_grams(f.metal)) + " g";
              }) +
         each("Densest spot", [](const PlanFigures& f) {
           return digits(to_a_dm2(f.densest)) + " A/dm²";
         });
}

std::string alternatives(const Plan& plan) {
  std::string text;
  for (std::size_t k = 1; k < plan.set_ups.size(); ++k) {
    const solver::SetUp& s = plan.set_ups[k];
    text += wrapped(
        fmt::format("Or:       {}: {}, largest over least {} ({}).", s.name,
                    s.figures.least > 0 ? time_estimate(s.figures.bench)
                                        : std::string("no end of time"),
                    evenness_text(s.figures), planned_file(k)),
        10);
  }
  return text;
}

std::string first(const PlanWords& words, std::size_t room) {
  const std::string head = "What to change first, of what is drawn\n";
  Lines lines;
  for (const std::string& lever : words.first)
    if (lines.size() < kMostFirst) lines.push_back(wrapped_in(lever, 2, 4));
  const std::string text =
      room > 1 ? cut_to(room - 1, lines, "in plan.json") : "";
  return text.empty() ? "" : head + text;
}

/// The most serious one stands in any case, others as there is room.
std::string cautions(const Plan& plan, std::size_t room) {
  if (!plan.set_ups.front().result) return "";
  Lines lines;
  for (const std::string& caution : plan.set_ups.front().result->cautions)
    lines.push_back(wrapped("Caution: " + caution, 2));
  if (lines.empty()) return "";
  const std::size_t shown = std::min(lines.size(), kMostCautions);
  std::string text = lines.front();
  std::size_t k = 1;
  for (; k < shown; ++k) {
    if (count_lines(text) + count_lines(lines[k]) + 1 > room) break;
    text += lines[k];
  }
  return k == lines.size() ? text
                           : text + fmt::format(
                                        "… and {} more cautions on the card, "
                                        "plan.svg\n",
                                        lines.size() - k);
}

/// What the planned set-up breaks beside what the verdict says; and what to
/// relax.
std::string reach(const Plan& plan, const PlanWords& words) {
  const Lines& breaks = plan.set_ups.front().figures.breaks;
  std::string text;
  for (std::size_t k = 1; k < breaks.size(); ++k)
    text += wrapped("But:      " + breaks[k] + ".", 10);
  if (!words.out_of_reach.empty())
    text += wrapped("Out of reach: " + words.out_of_reach, 2);
  return text;
}

}  // namespace

std::string plan_summary(const Plan& plan, const PlanWords& words,
                         const std::filesystem::path& folder) {
  const std::string last = "Open " + (folder / "plan.html").string() + "\n";
  std::string text = wrapped(plan.drawn.content.title) +
                     wrapped(words.verdict) + "\n" + to_do(plan) + "\n" +
                     table(plan) + alternatives(plan);
  const std::string out = reach(plan, words);
  const auto room = [&](std::size_t kept) {
    const std::size_t used = count_lines(text) + kept;
    return used < kLines ? kLines - used : 0;
  };
  text +=
      first(words, room(count_lines(out) + count_lines(last) + kCautionLines)) +
      out;
  return text + cautions(plan, room(count_lines(last))) + last;
}

void print_plan(const Plan& plan, const PlanWords& words,
                const std::filesystem::path& folder) {
  const std::string text = plan_summary(plan, words, folder);
  const std::string title = wrapped(plan.drawn.content.title);
  const std::string verdict = wrapped(words.verdict);
  print(stdout, title);
  print_bold(stdout, verdict);
  print(stdout, text.substr(title.size() + verdict.size()));
}

}  // namespace thinspot::io::cli
