#include "io/bath_words.hpp"

#include "io/bath_plan.hpp"
#include "io/number_text.hpp"
#include "io/solution_words.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "solver/bath.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

std::string grams(double kilograms) {
  return digits(to_grams(kilograms)) + " g";
}

std::string grams(const solver::Quantity& q) {
  const std::string low = digits(to_grams(q.value - q.plus_minus));
  const std::string high = digits(to_grams(q.value + q.plus_minus));
  return low == high ? low + " g" : fmt::format("{} to {} g", low, high);
}

std::string ampere_hours(double charge) {
  return digits(charge / kHour) + " A h";
}

std::string millilitres(double volume) { return digits(1e6 * volume) + " ml"; }

bool contains(const BathPlan& plan, const char* tag) {
  const auto& tags = plan.solution.contains;
  return std::find(tags.begin(), tags.end(), tag) != tags.end();
}

std::string amount_of(const MakeUp& line) {
  if (!line.poured) return fmt::format("{} {}", grams(line.mass), line.name);
  return fmt::format("{} of {} of {:.3g} % ({} of it pure)",
                     millilitres(*line.poured), line.name, 100 * line.strength,
                     grams(line.mass));
}

void add_make_up(const BathPlan& plan, std::vector<std::string>& lines) {
  if (plan.licensed) {
    lines.push_back(
        "Make-up:  none is told: the common solution holds cyanide, which "
        "kills, and belongs to a shop with a licence.");
    return;
  }
  if (plan.make_up.empty()) {
    lines.push_back(
        plan.solution.made_of.empty()
            ? "Make-up:  what is in the solution is not told. Give use or "
              "made_of."
            : "Make-up:  give --volume, as in --volume \"500 ml\".");
    return;
  }
  lines.push_back(fmt::format(
      "Make-up:  for {}: begin with three quarters of the water, distilled.",
      millilitres(*plan.volume)));
  for (const MakeUp& line : plan.make_up)
    lines.push_back(
        "          " + amount_of(line) +
        (line.acid ? ", slowly and stirring, into the water, never the other "
                     "way round; it gets hot."
         : line.name == "boric acid" ? ", which dissolves in hot water only."
                                     : "."));
  lines.push_back(fmt::format(
      "          Let it cool, then fill up with water to {}. Goggles, gloves, "
      "a labelled vessel.",
      millilitres(*plan.volume)));
}

void add_metal(const BathPlan& plan, std::vector<std::string>& lines) {
  const solver::Solution& s = plan.solution;
  if (plan.metal)
    lines.push_back(fmt::format(
        "Metal:    {} {} in it; all of it would be {} of plating.",
        grams(*plan.metal), s.metal.name,
        ampere_hours(solver::charge_for(s.metal, *plan.metal, s.efficiency))));
  lines.push_back(fmt::format(
      "          An ampere hour plates {} of {}.",
      grams(solver::metal_moved(s.metal, kHour, s.efficiency)), s.metal.name));
}

void add_run(const BathPlan& plan, std::vector<std::string>& lines) {
  if (!plan.run) return;
  lines.push_back(fmt::format(
      "Run:      one takes {}{}: {} of {} plate out.",
      plan.run->rough ? "roughly " : "", ampere_hours(plan.run->charge),
      grams(plan.run->taken), plan.solution.metal.name));
}

void add_anodes(const BathPlan& plan, std::vector<std::string>& lines) {
  if (!plan.run) return;
  if (plan.gives_back)
    lines.push_back(
        "Anodes:   soluble ones give back what plates, and a little more "
        "where hydrogen takes a share of the current at the part.");
  for (const AnodeLife& a : plan.anodes)
    lines.push_back(fmt::format(
        "          {}: {}; used up, down to {:.0f} %, after {} at this "
        "current.",
        a.name, grams(a.mass), 100 * (1 - solver::kUsableAnode),
        duration_text(a.seconds)));
  if (!plan.runs) return;
  lines.push_back(fmt::format(
      "Anodes:   inert: nothing gives metal back. After {} runs there is {} % "
      "left, after {} more {} %: top up at 80 %.",
      *plan.runs,
      digits(100 * solver::share_left(*plan.metal, plan.run->taken.value,
                                      *plan.runs)),
      std::max(1, *plan.runs),
      digits(std::max(0.0, 100 * solver::share_left(
                                     *plan.metal, plan.run->taken.value,
                                     *plan.runs + std::max(1, *plan.runs))))));
}

void add_replenishing(const BathPlan& plan, std::vector<std::string>& lines) {
  if (!plan.replenish || plan.gives_back) return;
  lines.push_back(fmt::format(
      "Top up:   {} {} for each ampere hour that inert anodes work{}.",
      grams(plan.replenish->mass), plan.replenish->name,
      contains(plan, "acid")
          ? "; the acid that they set free stays, so test and change it"
          : ""));
}

void add_cautions(const BathPlan& plan, std::vector<std::string>& lines) {
  if (contains(plan, "nickel"))
    lines.emplace_back(
        "Caution:  nickel salts sensitize the skin, their mist and dust cause "
        "cancer: gloves, no spray, no dust.");
  if (contains(plan, "chloride") && plan.run && !plan.gives_back)
    lines.emplace_back(
        "Caution:  chloride gives chlorine at an inert anode: open air, or "
        "leave it out.");
  lines.emplace_back(
      "Caution:  never down the drain: used solution and first rinse go to "
      "where hazardous waste is taken.");
}

}  // namespace

std::vector<std::string> bath_in_words(const BathPlan& plan) {
  std::vector<std::string> lines;
  lines.push_back("Solution: " + solution_in_words(plan.solution));
  add_make_up(plan, lines);
  add_metal(plan, lines);
  add_run(plan, lines);
  add_anodes(plan, lines);
  add_replenishing(plan, lines);
  add_cautions(plan, lines);
  return lines;
}

}  // namespace thinspot::io
