#include "solver/levers.hpp"

#include "solver/plan_levers.hpp"
#include "solver/sensitivity.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <string>

namespace thinspot::solver {

namespace {

constexpr double kTenth = 0.1;
constexpr double kMinute = 60;  // [s]

/// Of a part whose surface is judged, the thinnest; else of all that is open.
FigureOf thinnest(const Schedule& s) {
  FigureOf best{FigureOf::Kind::least, 0};
  std::optional<double> least;
  const auto has = [](const Extreme& e) { return e.to > e.from; };
  const bool any =
      std::any_of(s.spreads.begin(), s.spreads.end(),
                  [&](const CoatSpread& t) { return has(t.least_judged); });
  for (std::size_t p = 0; p < s.spreads.size(); ++p) {
    const Extreme& e = any ? s.spreads[p].least_judged : s.spreads[p].least;
    if (!has(e) || (least && *least <= e.value)) continue;
    least = e.value;
    best = {any ? FigureOf::Kind::least_judged : FigureOf::Kind::least, p};
  }
  return best;
}

/// The last word of an address.
std::string last_of(const std::string& key) {
  return key.substr(key.rfind('.') + 1);
}

bool is_conductivity(const std::string& key) {
  return last_of(key) == "conductivity";
}

bool is_setting(const std::string& key) {
  const std::string word = last_of(key);
  return word == "current" || word == "current_density" || word == "voltage";
}

bool is_lead(const std::string& key) {
  return last_of(key) == "lead_resistance";
}

bool is_polarization(const std::string& key) {
  const std::string word = last_of(key);
  return (key.starts_with("cathode.") || key.starts_with("thief.")) &&
         (word == "polarization_resistance" || word == "tafel_slope" ||
          word == "reverse_tafel_slope");
}

struct Together {
  std::string key;   ///< of the first that matters
  double share = 0;  ///< for a tenth more of all
  bool known = true;
  bool current = false, voltage = false;  ///< what is set, that matters
};

Together together(const Sensitivities& s,
                  const std::function<bool(const std::string&)>& counts) {
  Together sum;
  const FigureSlopes& figure = s.figures.front();
  for (std::size_t k = 0; k < s.keys.size(); ++k) {
    if (!counts(s.keys[k]) || s.at[k] == 0) continue;
    sum.known = sum.known && figure.by[k];
    const double share =
        kTenth * s.at[k] * figure.by[k].value_or(0) / figure.value;
    if (share == 0) continue;
    if (sum.key.empty()) sum.key = s.keys[k];
    sum.share += share;
    (last_of(s.keys[k]) == "voltage" ? sum.voltage : sum.current) = true;
  }
  return sum;
}

std::string drive_words(const Together& drive, bool more) {
  const std::string tenth = more ? "10 % more " : "10 % less ";
  if (drive.current && drive.voltage) return tenth + "from every supply";
  return tenth + (drive.voltage ? "voltage" : "current");
}

}  // namespace

std::vector<Lever> levers(const Schedule& schedule, const Case& c) {
  std::vector<Lever> all;
  const Sensitivities s = sensitivities(schedule, c, {thinnest(schedule)});
  const double least = s.figures.front().value;
  if (!(least > 0)) return all;
  const auto tell = [&](const std::string& key, const std::string& words,
                        double share) {
    if (std::abs(share) >= kLeastLever)
      all.push_back({key, words, share * least, share});
  };
  const auto tell_both = [&](const Together& t, const std::string& more,
                             const std::string& less) {
    if (t.known) tell(t.key, t.share >= 0 ? more : less, std::abs(t.share));
  };
  tell_both(together(s, is_conductivity),
            "a solution that conducts 10 % better",
            "a solution that conducts 10 % worse");
  tell_both(together(s, is_polarization),
            "10 % more polarization of the cathodes, as brighteners make",
            "10 % less polarization of the cathodes");
  const Together drive = together(s, is_setting);
  tell_both(drive, drive_words(drive, true), drive_words(drive, false));
  tell_both(together(s, is_lead), "leads of 10 % more resistance",
            "leads of 10 % less resistance");
  // All steps longer by the same share: the currents stay what they are.
  const double total = total_duration(c);
  if (total > 0)
    tell("step.1.duration",
         c.steps.size() > 1 ? "1 min longer, shared out over the steps"
                            : "1 min longer",
         kMinute / total);
  sort_levers(all);
  return all;
}

}  // namespace thinspot::solver
