#include "io/case_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace thinspot::io {

namespace {

constexpr std::size_t kUnknown = std::numeric_limits<std::size_t>::max();

std::string listed_names(const CaseReading& r) {
  std::vector<std::string> names;
  for (const solver::Rectifier& rectifier : r.content.rectifiers)
    names.push_back(rectifier.name);
  return fmt::format("{}", fmt::join(names, ", "));
}

/// Of several, none can tell what the part's mean is: all give to it.
void refuse_density(TableReader& t, bool several) {
  if (several && t.has("current_density"))
    t.wrong("current_density",
            "is the part's mean, which several rectifiers make together",
            "current = \"0.2 A\" or voltage = \"1.5 V\"");
}

/// Without leads, which a step does not change.
std::vector<KeyInfo> settings() {
  std::vector<KeyInfo> keys = table_info("rectifier").keys;
  std::erase_if(keys, [](const KeyInfo& key) {
    return key.name == "name" || key.name == "lead_resistance";
  });
  return keys;
}

void read_supply_of_all(CaseReading& r) {
  TableReader t = open_table(r, "supply");
  if (!t.present()) {
    // One of the wrong kind is noted already.
    if (!r.root.find("supply") && !r.root.find("rectifier"))
      r.findings.add("supply", "is missing",
                     "add [supply] with a current or a voltage, or a "
                     "[[rectifier]] for some of the anodes each");
    return;
  }
  if (r.root.find("rectifier"))
    r.findings.add("supply", "stands beside [[rectifier]]",
                   "one or the other: a [supply] feeds all anodes");
  read_adapter(t, r.content.supply);
  read_settings(t, r.content.supply);
  if (const auto leads = t.quantity("lead_resistance"))
    r.content.supply.lead_resistance = *leads;
  if (!t.has("current") && !t.has("current_density") && !t.has("voltage"))
    t.missing("current",
              "give one of current = \"0.33 A\", current_density = "
              "\"2 A/dm2\" and voltage = \"1.5 V\"");
}

}  // namespace

void read_rectifiers(CaseReading& r) {
  std::vector<TableReader> tables = open_tables(r, "rectifier");
  for (TableReader& t : tables) {
    solver::Rectifier rectifier;
    rectifier.name = name_in(t);
    read_adapter(t, rectifier.supply);
    read_settings(t, rectifier.supply);
    refuse_density(t, tables.size() > 1);
    if (const auto leads = t.quantity("lead_resistance"))
      rectifier.supply.lead_resistance = *leads;
    if (!t.has("current") && !t.has("current_density") && !t.has("voltage"))
      t.missing("current",
                "give one of current = \"0.2 A\" and voltage = \"1.5 V\"");
    r.content.rectifiers.push_back(std::move(rectifier));
  }
}

std::size_t read_rectifier_of(CaseReading& r, TableReader& anode) {
  const auto& all = r.content.rectifiers;
  const auto name = anode.text("rectifier");
  if (all.empty()) {
    if (anode.has("rectifier"))
      anode.wrong("rectifier", "names one, but there is no [[rectifier]]",
                  "add it, or leave this out: [supply] feeds all anodes");
    return 0;
  }
  if (!anode.has("rectifier") && all.size() == 1) return 0;
  if (!anode.has("rectifier")) {
    anode.missing("rectifier",
                  fmt::format("say which feeds it: {}", listed_names(r)));
    return kUnknown;
  }
  for (std::size_t k = 0; k < all.size(); ++k)
    if (all[k].name == name) return k;
  if (name)
    anode.wrong("rectifier", fmt::format("there is no \"{}\"", *name),
                fmt::format("one of: {}", listed_names(r)));
  return kUnknown;
}

void read_supply(CaseReading& r) {
  read_supply_of_all(r);
  const auto& anodes = r.content.anodes;
  const auto on = [&](std::size_t k) {
    return std::any_of(
        anodes.begin(), anodes.end(),
        [&](const solver::Anode& a) { return a.rectifier == k; });
  };
  if (on(kUnknown)) return;
  for (std::size_t k = 0; k < r.content.rectifiers.size(); ++k) {
    const std::string& name = r.content.rectifiers[k].name;
    if (!on(k))
      r.findings.add(
          "rectifier." + name, "feeds no anode",
          fmt::format("rectifier = \"{}\" in an [[anode]], or leave it out",
                      name));
  }
}

void read_rectifiers_of_step(CaseReading& r, TableReader& t,
                             solver::Step& step) {
  const auto& all = r.content.rectifiers;
  std::vector<KeyInfo> known;
  for (const solver::Rectifier& rectifier : all) {
    KeyInfo key{rectifier.name, Form::table};
    key.example = "current = \"0.2 A\"";
    known.push_back(key);
  }
  if (t.has("rectifiers") && all.empty()) {
    t.wrong("rectifiers", "there is no [[rectifier]]",
            "supply = { current = \"0.3 A\" }");
    return;
  }
  if (t.has("supply") && !all.empty())
    t.wrong("supply", "there is no [supply], but [[rectifier]]",
            fmt::format("rectifiers = {{ {} = {{ current = \"0.2 A\" }} }}",
                        all.front().name));
  TableReader table = t.table("rectifiers", known);
  if (!table.present()) return;
  if (!step.rectifiers) {
    step.rectifiers.emplace();
    for (const solver::Rectifier& rectifier : all)
      step.rectifiers->push_back(rectifier.supply);
  }
  for (std::size_t k = 0; k < all.size(); ++k) {
    TableReader own = table.table(all[k].name, settings());
    if (!own.present()) continue;
    refuse_adapter(own, "[[rectifier]]");
    read_settings(own, (*step.rectifiers)[k]);
    refuse_density(own, all.size() > 1);
  }
}

}  // namespace thinspot::io
