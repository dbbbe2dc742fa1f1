// What a plan may vary: [plan] vary.
#include "io/addresses.hpp"
#include "io/case_reading.hpp"
#include "io/nearest.hpp"
#include "io/quote.hpp"
#include "io/trade_units.hpp"
#include "solver/plan_variables.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

namespace thinspot::io {

namespace {

constexpr std::size_t kMostVaried = 24;

constexpr const char* kWhatVaries =
    "what can vary is the place, gap, turn or a size of a solid in the tank, "
    "tank.level, and what a supply is set to";

/// The keys of a supply that set it.
bool is_setting(const Address& a) {
  const std::string_view table = a.place->info->name;
  return (table == "supply" || table == "rectifier") &&
         (a.key->name == "current" || a.key->name == "current_density" ||
          a.key->name == "voltage");
}

bool is_placing(const Address& a) {
  const std::string_view table = a.place->info->name;
  if (table == "tank") return a.key->name == "level";
  if (!a.place->info->has_shape) return false;
  if (a.key->name == "at") return a.component.has_value();
  const Dimension d = a.key->limits.dimension;
  return a.key->form == Form::value &&
         (d == Dimension::length || d == Dimension::angle);
}

/// Why a key that could vary does not in this case; "" where it does.
std::string stands_still(const CaseReading& r, const Address& a,
                         const std::string& address) {
  const std::string key(a.key->name);
  if (is_setting(a))
    return a.place->table && a.place->table->find(key)
               ? ""
               : "is not what the case sets the supply by";
  if (r.content.rack &&
      (address.starts_with("part.") || address.starts_with("clip.")))
    return "is on a rack, where nothing moves by itself";
  if (solver::placed_value(r.content, address)) {
    const bool assumed = is_radius(key) && !a.place->table->find(key);
    return assumed ? "is not given in the case" : "";
  }
  if (a.place->info->name == "tank") return "is none in a view from above";
  if (a.place->info->name == "clip" && key == "gap")
    return "is where a clip touches the part: give the clip by at";
  if (key == "gap" || key == "at") return "is not how the case gives its place";
  return "is not given in the case";
}

std::optional<Address> find(const std::vector<AddressedTable>& all,
                            TableReader& vary, const std::string& name) {
  const auto found = resolve(all, name);
  if (!found) {
    const auto near = nearest(name, all_addresses(all));
    vary.wrong(name, "is not a key of this case",
               near ? fmt::format("is \"{}\" meant?", *near) : kWhatVaries);
    return std::nullopt;
  }
  if (is_setting(*found) || is_placing(*found)) return found;
  const bool point = found->key->form == Form::point && !found->component;
  vary.wrong(name, "is nothing that a plan can vary",
             point && found->key->name == "at"
                 ? fmt::format("\"{0}.x\" or \"{0}.y\"", name)
                 : kWhatVaries);
  return std::nullopt;
}

/// Low and high of "15 mm .. 60 mm".
std::optional<solver::Vary> read_range(TableReader& vary,
                                       const std::string& name,
                                       const Limits& limits) {
  const std::string text = vary.as_written(name);
  ParsedQuantity range;
  try {
    range = parse_quantity(text, limits.dimension);
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    vary.wrong(name, p.wrong, p.mend);
    return std::nullopt;
  }
  const double low = range.value - range.plus_minus;
  const double high = range.value + range.plus_minus;
  if (!(low < high)) {
    vary.wrong(name, in_quotes(text) + " is one value, not a range",
               "as in \"15 mm .. 60 mm\"");
    return std::nullopt;
  }
  if (!within(low, limits) || !within(high, limits)) {
    vary.wrong(name, in_quotes(text) + " is out of range",
               "what makes sense here is " + range_text(limits));
    return std::nullopt;
  }
  return solver::Vary{name, low, high};
}

/// More liquid than the tank holds.
bool overflows(const CaseReading& r, const solver::Vary& vary) {
  return vary.key == "tank.level" &&
         vary.high > r.content.section.tank.height * (1 + 1e-9);
}

/// Whether the entry is one; notes what is wrong with it otherwise.
bool is_entry(TableReader& vary, const Member& entry) {
  if (!is_printable(entry.name, 100)) {
    vary.wrong(in_quotes(entry.name), "is not a key of this case", kWhatVaries);
    return false;
  }
  if (entry.value.kind == Node::Kind::text) return true;
  // Without quotes TOML takes the address apart at its dots.
  vary.wrong(entry.name, "is no range",
             "the address and its range both stand in quotes, as in "
             "\"anode.sheet.gap\" = \"15 mm .. 60 mm\"");
  return false;
}

/// @param sound  nothing is wrong with the case outside of its plan: only then
///               it is known what stands where
void read_one(CaseReading& r, const std::vector<AddressedTable>& all,
              TableReader& vary, const std::string& name, bool sound) {
  const auto found = find(all, vary, name);
  if (!found) return;
  const auto range = read_range(vary, name, found->key->limits);
  if (!range) return;
  const std::string why = sound ? stands_still(r, *found, name) : "";
  if (!why.empty())
    vary.wrong(name, why, kWhatVaries);
  else if (overflows(r, *range))
    vary.wrong(
        name, "would let the tank overflow",
        fmt::format("at most {:.4g} mm", to_mm(r.content.section.tank.height)));
  else
    r.content.plan.vary.push_back(*range);
}

}  // namespace

void read_vary(CaseReading& r, TableReader& plan, bool sound) {
  TableReader vary = plan.free_table("vary", {"", Form::text});
  if (!vary.present()) return;
  const Node& entries = *r.root.find("plan")->find("vary");
  const std::size_t count = entries.members.size();
  if (count == 0)
    plan.wrong("vary", "is empty", "leave it out: then all that can moves");
  if (count > kMostVaried) {
    plan.wrong("vary", fmt::format("names {} keys", count),
               fmt::format("at most {}: a plan that may move all finds little",
                           kMostVaried));
    return;
  }
  const std::vector<AddressedTable> all = addressed_tables(r.root);
  for (const Member& entry : entries.members)
    if (is_entry(vary, entry)) read_one(r, all, vary, entry.name, sound);
}

}  // namespace thinspot::io
