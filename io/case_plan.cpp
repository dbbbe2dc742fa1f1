#include "io/case_reading.hpp"

#include <fmt/format.h>

#include <optional>
#include <vector>

namespace thinspot::io {

namespace {

constexpr double kMostTurns = 24, kMostAnodes = 4, kMostSeeds = 1e9;
/// One, or a pair above and below the part.
constexpr double kMostSpares = 2;

/// A whole number within bounds.
std::optional<int> bounded(TableReader& t, std::string_view key, double low,
                           double high) {
  const auto number = t.whole(key);
  if (!number) return std::nullopt;
  if (*number >= low && *number <= high) return static_cast<int>(*number);
  t.wrong(key, fmt::format("{:g} is out of range", *number),
          fmt::format("what makes sense here is {:g} .. {:g}", low, high));
  return std::nullopt;
}

/// Sizes of a plate and of a rod, and how many.
std::vector<KeyInfo> spare_keys() {
  std::vector<KeyInfo> keys;
  for (const char* shape : {"plate", "rod"})
    for (const mesh::SizeKey& size : mesh::find_shape(shape)->sizes)
      keys.push_back(
          {size.name, Form::value,
           is_radius(size.name) ? limits::length_or_0 : limits::length});
  keys.push_back({"count", Form::whole});
  return keys;
}

/// @returns false where a size is missing, wrong, or of the other shape.
bool read_sizes(TableReader& t, mesh::Solid& solid) {
  bool sound = true;
  for (const mesh::ShapeKind& kind : mesh::shape_kinds()) {
    const bool own = kind.name == solid.shape;
    if (!own && kind.name != "plate" && kind.name != "rod") continue;
    for (const mesh::SizeKey& size : kind.sizes) {
      if (own && size.required && !t.has(size.name)) {
        t.missing(size.name, fmt::format("a {} needs its {}, as in {} = \"2 "
                                         "mm\"",
                                         solid.shape, size.name, size.name));
        sound = false;
      }
      if (!t.has(size.name)) continue;
      const auto value = t.value(size.name);
      sound = sound && value && own;
      if (!own)
        t.wrong(size.name, fmt::format("a {} has none", solid.shape),
                "width and height of a plate, or the diameter of a rod");
      else if (value)
        solid.sizes.emplace(size.name, *value);
    }
  }
  return sound;
}

std::optional<solver::Spare> read_spare(CaseReading& r, TableReader& plan,
                                        std::string_view key, mesh::Role role) {
  TableReader t = plan.table(key, spare_keys());
  if (!t.present()) return std::nullopt;
  solver::Spare spare;
  spare.count = bounded(t, "count", 1, kMostSpares).value_or(1);
  spare.solid.role = role;
  spare.solid.name = key;
  spare.solid.key = key;
  spare.solid.shape = t.has("diameter") ? "rod" : "plate";
  if (!read_sizes(t, spare.solid)) return std::nullopt;
  try {
    mesh::outline_at_origin(spare.solid, r.content.section.cut);
  } catch (const InputError& error) {
    r.findings.add(t.address(), error);
  }
  return spare;
}

}  // namespace

void read_plan(CaseReading& r) {
  TableReader t = open_table(r, "plan");
  if (!t.present()) return;
  const bool sound = r.findings.empty();
  solver::PlanWishes& plan = r.content.plan;
  const auto goal = t.text("goal");
  if (goal == "evenness") plan.goal = solver::PlanGoal::evenness;
  if (goal == "metal") plan.goal = solver::PlanGoal::metal;
  plan.most_turns = bounded(t, "max_turns", 0, kMostTurns);
  plan.most_anodes = bounded(t, "max_anodes", 1, kMostAnodes);
  plan.longest = t.value("max_time");
  if (const auto handling = t.value("handling")) plan.handling = *handling;
  read_vary(r, t, sound);
  plan.shield = read_spare(r, t, "shield", mesh::Role::shield);
  plan.thief = read_spare(r, t, "thief", mesh::Role::thief);
  plan.move_clip = t.flag("move_clip").value_or(false);
  if (const auto seed = bounded(t, "seed", 0, kMostSeeds))
    plan.seed = static_cast<unsigned>(*seed);
}

}  // namespace thinspot::io
