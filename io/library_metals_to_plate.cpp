#include "io/library_metals_to_plate.hpp"

#include "io/library.hpp"
#include "io/library_list.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

#include <array>
#include <set>

namespace thinspot::io {

namespace {

using solver::BaseMetals;
using solver::Verdict;

constexpr Limits kDensity{Dimension::mass_density, "0.5 g/cm3", "25 g/cm3"};

/// A text that must be there, and one that may be left out.
KeyInfo must(std::string_view name) { return {name, Form::text, {}, true}; }
KeyInfo may(std::string_view name) { return {name, Form::text}; }

constexpr std::array<std::string_view, 4> kVerdicts{
    "holds", "needs a strike", "will not hold", "do not plate here"};

const std::vector<KeyInfo>& task_keys() {
  static const std::vector<KeyInfo> keys{
      must("name"),   must("do"),
      must("how"),    must("time"),
      must("why"),    must("temperature"),
      must("source"), {"rinse", Form::flag, {}, true}};
  return keys;
}

const std::vector<KeyInfo>& coating_keys() {
  static const std::vector<KeyInfo> keys{
      must("name"),
      {"metals", Form::texts, {}, true},
      {"alkaline", Form::flag},
      {"words", Form::texts},
      {"current_on", Form::flag, {}, true},
      must("transfer"),
      {"interruption", Form::choice, {}, true, {"go on", "reactivate"}},
      must("off"),
      may("reactivate"),
      {"then", Form::texts, {}, true},
      may("refuse"),
      must("source")};
  return keys;
}

const std::vector<KeyInfo>& metal_keys() {
  static const std::vector<KeyInfo> keys{
      must("name"),
      {"aliases", Form::texts, {}, true},
      {"density", Form::value_pair, kDensity, true},
      must("magnet"),
      must("filed"),
      may("standard"),
      must("standard_title"),
      must("peels"),
      {"traits", Form::texts},
      may("refuse"),
      may("bake"),
      must("source")};
  return keys;
}

const std::vector<KeyInfo>& route_keys() {
  static const std::vector<KeyInfo> keys{
      must("base"),
      {"coatings", Form::texts, {}, true},
      {"verdict",
       Form::choice,
       {},
       true,
       std::vector<std::string_view>(kVerdicts.begin(), kVerdicts.end())},
      must("why"),
      {"tasks", Form::texts},
      {"strike", Form::texts},
      may("remark"),
      must("source")};
  return keys;
}

solver::Task read_task(TableReader& t) {
  return {text_or_empty(t, "name"),        text_or_empty(t, "do"),
          text_or_empty(t, "how"),         text_or_empty(t, "time"),
          text_or_empty(t, "temperature"), t.flag("rinse").value_or(false),
          text_or_empty(t, "why"),         text_or_empty(t, "source")};
}

solver::Coating read_coating(TableReader& t) {
  solver::Coating c;
  c.name = text_or_empty(t, "name");
  c.metals = texts_or_none(t, "metals");
  if (const auto alkaline = t.flag("alkaline")) {
    c.asks_alkaline = *alkaline;
    c.asks_acid = !*alkaline;
  }
  c.words = texts_or_none(t, "words");
  c.current_on = t.flag("current_on").value_or(false);
  c.transfer = text_or_empty(t, "transfer");
  c.reactivate = t.text("interruption") == "reactivate";
  c.off = text_or_empty(t, "off");
  c.reactivation = text_or_empty(t, "reactivate");
  c.then = texts_or_none(t, "then");
  c.refuse = text_or_empty(t, "refuse");
  c.source = text_or_empty(t, "source");
  if (c.reactivate == c.reactivation.empty())
    t.wrong("reactivate", "and interruption do not go together",
            "name the task where interruption = \"reactivate\", there alone");
  return c;
}

solver::BaseMetal read_metal(TableReader& t) {
  solver::BaseMetal m;
  m.name = text_or_empty(t, "name");
  m.aliases = texts_or_none(t, "aliases");
  if (const auto density = t.value_pair("density")) {
    m.least_density = (*density)[0];
    m.most_density = (*density)[1];
    if (m.least_density > m.most_density)
      t.wrong("density", "runs backwards", "put the smaller value first");
  }
  m.magnet = text_or_empty(t, "magnet");
  m.filed = text_or_empty(t, "filed");
  m.standard = text_or_empty(t, "standard");
  m.standard_title = text_or_empty(t, "standard_title");
  m.peels = text_or_empty(t, "peels");
  m.traits = texts_or_none(t, "traits");
  m.refuse = text_or_empty(t, "refuse");
  m.bake = text_or_empty(t, "bake");
  m.source = text_or_empty(t, "source");
  return m;
}

solver::Route read_route(TableReader& t) {
  solver::Route r;
  r.base = text_or_empty(t, "base");
  r.coatings = texts_or_none(t, "coatings");
  const auto verdict = t.text("verdict");
  for (std::size_t k = 0; k < kVerdicts.size(); ++k)
    if (verdict == kVerdicts[k]) r.verdict = static_cast<Verdict>(k);
  r.why = text_or_empty(t, "why");
  r.tasks = texts_or_none(t, "tasks");
  r.strike = texts_or_none(t, "strike");
  r.remark = text_or_empty(t, "remark");
  r.source = text_or_empty(t, "source");
  if ((r.verdict == Verdict::needs_strike) == r.strike.empty())
    t.wrong("strike", "and verdict do not go together",
            "say which do where it needs a strike, there alone");
  return r;
}

/// Notes names that stand for nothing.
void check_names(TableReader& t, std::string_view key,
                 const std::vector<std::string>& names,
                 const std::set<std::string>& known) {
  for (const std::string& name : names)
    if (!known.contains(name))
      t.wrong(key, in_quotes(name) + " is not there",
              "it takes " + with_or({known.begin(), known.end()}));
}

template <class List>
std::set<std::string> names_of(const List& list) {
  std::set<std::string> names;
  for (const auto& item : list) names.insert(item.name);
  return names;
}

void read_tasks_and_coatings(const std::filesystem::path& file,
                             BaseMetals& all) {
  const Node root = read_document(file);
  Findings findings(file.string());
  refuse_others(root, {"task", "coating", "adhesion", "identify"}, findings);
  for_each_table(root, "task", task_keys(), findings,
                 [&](TableReader& t) { all.tasks.push_back(read_task(t)); });
  const std::set<std::string> tasks = names_of(all.tasks);
  for_each_table(root, "coating", coating_keys(), findings,
                 [&](TableReader& t) {
                   all.coatings.push_back(read_coating(t));
                   const solver::Coating& c = all.coatings.back();
                   check_names(t, "then", c.then, tasks);
                   if (!c.reactivation.empty())
                     check_names(t, "reactivate", {c.reactivation}, tasks);
                 });
  TableReader adhesion(root.find("adhesion"), "adhesion",
                       {must("text"), must("standard")}, findings);
  all.adhesion = {text_or_empty(adhesion, "text"),
                  text_or_empty(adhesion, "standard")};
  TableReader identify(root.find("identify"), "identify",
                       {must("magnet"), must("file"), must("weight"),
                        must("refuse"), must("source")},
                       findings);
  all.identify = {
      text_or_empty(identify, "magnet"), text_or_empty(identify, "file"),
      text_or_empty(identify, "weight"), text_or_empty(identify, "refuse"),
      text_or_empty(identify, "source")};
  findings.throw_if_any();
}

void read_metals_and_routes(const std::filesystem::path& file,
                            BaseMetals& all) {
  const Node root = read_document(file);
  Findings findings(file.string());
  refuse_others(root, {"base_metal", "route"}, findings);
  for_each_table(root, "base_metal", metal_keys(), findings,
                 [&](TableReader& t) { all.metals.push_back(read_metal(t)); });
  const std::set<std::string> metals = names_of(all.metals);
  const std::set<std::string> tasks = names_of(all.tasks);
  std::set<std::string> coatings = names_of(all.coatings);
  std::set<std::string> strikes = coatings;
  coatings.insert("any");
  strikes.insert("zincate");
  for_each_table(root, "route", route_keys(), findings, [&](TableReader& t) {
    all.routes.push_back(read_route(t));
    const solver::Route& r = all.routes.back();
    check_names(t, "base", {r.base}, metals);
    check_names(t, "coatings", r.coatings, coatings);
    check_names(t, "tasks", r.tasks, tasks);
    check_names(t, "strike", r.strike, strikes);
  });
  findings.throw_if_any();
}

}  // namespace

BaseMetals read_base_metals(const std::filesystem::path& folder) {
  BaseMetals all;
  read_tasks_and_coatings(folder / "preparation.toml", all);
  read_metals_and_routes(folder / "base_metals.toml", all);
  return all;
}

std::shared_ptr<const BaseMetals> base_metals() {
  static const auto all =
      std::make_shared<const BaseMetals>(read_base_metals(library_folder()));
  return all;
}

}  // namespace thinspot::io
