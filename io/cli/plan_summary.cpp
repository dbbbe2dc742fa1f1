#include "io/cli/plan_summary.hpp"

#include "io/card_steps.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/wrap.hpp"
#include "io/number_text.hpp"
#include "io/plan_changes.hpp"
#include "io/plan_json.hpp"
#include "io/todo_words.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace thinspot::io::cli {

namespace {

using solver::Plan;
using solver::PlanFigures;
using Lines = std::vector<std::string>;

/// Lines in all, and rows that a list may take before it is cut short; the
/// folder has them all.
constexpr std::size_t kLines = 40;
constexpr std::size_t kMostFirst = 5, kMostTodo = 7, kMostCautions = 3;

std::string lines_cut(const Lines& all, std::size_t most, const char* what) {
  std::string text;
  const std::size_t shown = std::min(all.size(), most);
  for (std::size_t k = 0; k < shown; ++k) text += all[k];
  if (all.size() > shown)
    text += fmt::format("… and {} more {}\n", all.size() - shown, what);
  return text;
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
  return "To do\n" + lines_cut(lines, kMostTodo, "on the card, plan.svg");
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

std::string first(const PlanWords& words) {
  if (words.first.empty()) return "";
  Lines lines;
  for (const std::string& lever : words.first)
    lines.push_back(wrapped_in(lever, 2, 4));
  return "What to change first, of what is drawn\n" +
         lines_cut(lines, kMostFirst, "in plan.json");
}

std::size_t count_lines(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

/// As many as there is room for.
std::string cautions(const Plan& plan, std::size_t room) {
  if (!plan.set_ups.front().result) return "";
  const Lines& all = plan.set_ups.front().result->cautions;
  std::string text;
  for (std::size_t k = 0; k < std::min(all.size(), kMostCautions); ++k) {
    const std::string next = wrapped("Caution: " + all[k], 2);
    // The most serious one stands in any case, the next as there is room.
    if (k > 0 && count_lines(text) + count_lines(next) + 1 > room)
      return text +
             fmt::format("… and {} more cautions on the card, plan.svg\n",
                         all.size() - k);
    text += next;
  }
  if (all.size() > kMostCautions)
    text += fmt::format("… and {} more cautions on the card, plan.svg\n",
                        all.size() - kMostCautions);
  return text;
}

std::string body(const Plan& plan, const PlanWords& words) {
  std::string text = to_do(plan) + "\n" + table(plan);
  for (const std::string& broken : plan.set_ups.front().figures.breaks)
    text += wrapped("But:      " + broken + ".", 10);
  text += alternatives(plan) + first(words);
  if (!words.out_of_reach.empty())
    text += wrapped("Out of reach: " + words.out_of_reach, 2);
  return text;
}

}  // namespace

std::string plan_summary(const Plan& plan, const PlanWords& words,
                         const std::filesystem::path& folder) {
  const std::string above = wrapped(plan.drawn.content.title) +
                            wrapped(words.verdict) + "\n" + body(plan, words);
  const std::string last = "Open " + (folder / "plan.svg").string() + "\n";
  const std::size_t used = count_lines(above) + count_lines(last);
  return above + cautions(plan, used < kLines ? kLines - used : 0) + last;
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
