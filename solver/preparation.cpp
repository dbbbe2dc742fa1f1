#include "solver/preparation.hpp"

#include "mesh/lower_case.hpp"
#include "solver/substances.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

/// A metal in the words of the case: "steel, nickel strike".
struct Said {
  std::string base;
  std::vector<std::string> layers;  ///< "nickel strike"
};

std::string trimmed(const std::string& text) {
  const std::size_t from = text.find_first_not_of(' ');
  if (from == std::string::npos) return "";
  return text.substr(from, text.find_last_not_of(' ') - from + 1);
}

/// What comes after a comma or "with" lies on the base metal.
Said taken_apart(const std::string& text) {
  std::string rest = mesh::lower_case(text);
  for (const char* word : {" with ", " + ", ";"})
    for (std::size_t at = rest.find(word); at != std::string::npos;
         at = rest.find(word))
      rest.replace(at, std::string(word).size(), ",");
  Said said;
  for (std::size_t begin = 0; begin <= rest.size();) {
    const std::size_t end = std::min(rest.find(',', begin), rest.size());
    const std::string piece = trimmed(rest.substr(begin, end - begin));
    if (begin == 0)
      said.base = piece;
    else if (!piece.empty())
      said.layers.push_back(piece);
    begin = end + 1;
  }
  return said;
}

bool mentions(const std::string& text, const std::string& word) {
  return text.find(word) != std::string::npos;
}

bool names_metal(const std::string& text, const Coating& kind) {
  return std::any_of(
      kind.metals.begin(), kind.metals.end(),
      [&](const std::string& metal) { return mentions(text, metal); });
}

/// Whether a layer said in words, or the kind of an earlier case, is a strike
/// of that kind: "nickel strike" is, "copper strike" of alkaline copper.
bool is_strike(const BaseMetals& all, const std::string& layer,
               const std::string& wanted) {
  if (layer == wanted) return true;
  // A kind of its own: Watts nickel does not stand in for Wood's strike.
  if (find_coating(all, layer)) return false;
  const Coating* kind = find_coating(all, wanted);
  if (!kind) return mentions(layer, wanted);
  return names_metal(layer, *kind) &&
         (mentions(layer, "strike") || kind->words.empty()) &&
         !mentions(layer, "acid");
}

std::string strike_in(const BaseMetals& all, const Route& route,
                      const std::vector<std::string>& layers) {
  for (const std::string& layer : layers)
    for (const std::string& wanted : route.strike)
      if (is_strike(all, layer, wanted)) return layer;
  return "";
}

/// The base metal that stands for a layer that is on top.
const BaseMetal* as_base(const BaseMetals& all, const std::string& layer) {
  const Coating* kind = find_coating(all, layer);
  return find_base(all, kind ? kind->metals.front() : layer);
}

void add_tasks(const BaseMetals& all, const std::vector<std::string>& names,
               std::vector<Task>& tasks) {
  for (const std::string& name : names)
    if (const Task* task = find_task(all, name)) tasks.push_back(*task);
}

void take_verdict(Preparation& p, const Route& route,
                  const std::string& struck) {
  p.verdict = route.verdict;
  p.why = route.why;
  p.remark = route.remark;
  p.source = route.source;
  p.strike = route.strike;
  p.struck = struck;
  if (route.verdict == Verdict::needs_strike && !struck.empty())
    p.verdict = Verdict::holds;
}

/// Onto the layer of the case before: that one's own rinse and dip.
void prepare_onto_layer(const BaseMetals& all,
                        const std::vector<std::string>& layers,
                        Preparation& p) {
  const std::string& last = layers.back();
  p.onto = "fresh " + last;
  p.peels.clear();  // that is of the base metal
  p.tasks.clear();
  if (const Coating* kind = find_coating(all, last))
    add_tasks(all, kind->then, p.tasks);
  const BaseMetal* metal = as_base(all, last);
  const Route* route =
      metal ? find_route(all, metal->name, p.coating) : nullptr;
  if (!route || (p.verdict && *p.verdict != Verdict::holds)) return;
  const std::string base_strike = p.struck;
  take_verdict(p, *route, strike_in(all, *route, layers));
  p.remark.clear();  // it is of old metal
  if (p.struck.empty()) p.struck = base_strike;
}

void keep_kind(const BaseMetals& all, const Coating& kind, Preparation& p) {
  p.current_on = kind.current_on;
  p.transfer = kind.transfer;
  p.reactivate = kind.reactivate;
  p.off = kind.off;
  if (const Task* task = find_task(all, kind.reactivation))
    p.reactivation = *task;
  if (kind.refuse.empty()) return;
  p.verdict = Verdict::do_not_plate;
  p.why = kind.refuse;
  p.tasks.clear();
}

void keep_base(const BaseMetal& base, Preparation& p) {
  p.base = base.name;
  p.peels = base.peels;
  p.standard = base.standard;
  p.standard_title = base.standard_title;
  p.bake = base.bake;
  p.refuse = base.refuse;
}

void help_to_identify(const BaseMetals& all, const Case& c, Preparation& p) {
  p.identify = all.identify;
  for (const BaseMetal& metal : all.metals) {
    p.known.push_back(metal.name);
    p.known.insert(p.known.end(), metal.aliases.begin(), metal.aliases.end());
  }
  const std::optional<double> volume = part_volume(c);
  if (!volume) return;
  for (const BaseMetal& metal : all.metals)
    p.weights.push_back({metal.name, *volume * metal.least_density,
                         *volume * metal.most_density});
}

}  // namespace

const Coating* kind_of_solution(const BaseMetals& all, const Solution& s) {
  const std::set<std::string> in = substances_in(s);
  const std::string name = mesh::lower_case(s.name + " " + s.entry);
  for (const Coating& kind : all.coatings) {
    const bool metal = std::find(kind.metals.begin(), kind.metals.end(),
                                 s.metal.name) != kind.metals.end();
    const bool word =
        kind.words.empty() ||
        std::any_of(kind.words.begin(), kind.words.end(),
                    [&](const std::string& w) { return mentions(name, w); });
    const bool alkaline = in.contains("alkali");
    if (metal && word && !(kind.asks_acid && alkaline) &&
        !(kind.asks_alkaline && !alkaline))
      return &kind;
  }
  return nullptr;
}

namespace {

/// How often a part goes on from one position to the next.
int turns_between(const Turning& turning, double duration) {
  const int once = turning.positions - 1;
  if (turning.dwell <= 0) return once;
  const double stays = std::ceil(duration / turning.dwell * (1 - 1e-9));
  return static_cast<int>(std::clamp(stays - 1, 0.0, 1e6));
}

}  // namespace

std::vector<Interruption> interruptions_in(const Case& c) {
  std::vector<Interruption> list;
  for (std::size_t k = 0; k < c.steps.size(); ++k) {
    const Step& here = c.steps[k];
    // Without a stop it turns with the current on.
    if (here.turning && here.turning->positions > 1)
      list.push_back({k + 1, "turned from one position to the next",
                      turns_between(*here.turning, here.duration.value)});
    if (k == 0) continue;
    const Step& before = c.steps[k - 1];
    if (here.motion.flip != before.motion.flip)
      list.push_back({k, "flipped"});
    else if (!(here.motion == before.motion))
      list.push_back({k, "turned"});
    else if (here.clips != before.clips)
      list.push_back({k, "held by other clips"});
  }
  return list;
}

std::optional<Preparation> prepare(const Case& c) {
  if (!c.base_metals) return std::nullopt;
  const BaseMetals& all = *c.base_metals;
  Preparation p;
  p.given = c.below.empty() ? c.part_metal : c.below.front();
  p.adhesion = all.adhesion;
  p.interruptions = interruptions_in(c);
  const Coating* kind = kind_of_solution(all, c.solution);
  p.coating = kind ? kind->name : c.solution.metal.name;

  const Said said = taken_apart(p.given);
  std::vector<std::string> layers = said.layers;
  if (!c.below.empty())
    layers.insert(layers.end(), c.below.begin() + 1, c.below.end());
  p.onto = said.base;
  const BaseMetal* base = find_base(all, said.base);
  if (base) {
    keep_base(*base, p);
    if (const Route* route = find_route(all, base->name, p.coating)) {
      take_verdict(p, *route, strike_in(all, *route, layers));
      add_tasks(all, route->tasks, p.tasks);
    }
  } else {
    help_to_identify(all, c, p);
  }
  if (c.below.size() > 1) prepare_onto_layer(all, layers, p);
  if (kind) keep_kind(all, *kind, p);
  return p;
}

}  // namespace thinspot::solver
