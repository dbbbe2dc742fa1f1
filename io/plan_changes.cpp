#include "io/plan_changes.hpp"

#include "io/set_up_words.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using mesh::Role;
using mesh::Side;
using mesh::Solid;
using solver::Case;
using solver::Supply;
using Lines = std::vector<std::string>;

/// Less than this no ruler tells [m].
constexpr double kNothing = 0.05e-3;

std::string mm(double metres) { return digits(to_mm(metres), 4) + " mm"; }

const char* role_of(const Solid& s) {
  switch (s.role) {
    case Role::anode: return "anode";
    case Role::clip: return "clip";
    case Role::shield: return "shield";
    case Role::thief: return "thief";
    case Role::floating: return "metal";
    case Role::part: break;
  }
  return "part";
}

/// "the sheet", "anode 2", "the part".
std::string called(const Solid& s) {
  if (s.role == Role::part) return "the part";
  const bool number =
      s.name.find_first_not_of("0123456789") == std::string::npos;
  if (number) return fmt::format("{} {}", role_of(s), s.name);
  return "the " + (s.role == Role::clip ? with_role("clip", s.name) : s.name);
}

const char* beside(Side side) {
  switch (side) {
    case Side::left: return "to the left of";
    case Side::right: return "to the right of";
    case Side::above: return "above";
    case Side::below: return "below";
  }
  return "beside";
}

/// Where it stands, for one that comes.
std::string place_of(const Solid& s, const Case& c) {
  if (s.side)
    return fmt::format("{} the part, {} from it", beside(*s.side), mm(s.gap));
  if (c.section.cut == mesh::Cut::axisymmetric)
    return fmt::format("its centre {} above the floor", mm(s.at.y()));
  return fmt::format(
      "its centre {} from the left wall and {} {}", mm(s.at.x()), mm(s.at.y()),
      c.section.cut == mesh::Cut::plan ? "from the front" : "above the floor");
}

std::string turn_words(double radians) {
  const double turn = to_degrees(radians);
  return fmt::format("{}° {}", digits(std::abs(turn)),
                     turn > 0 ? "counter-clockwise" : "clockwise");
}

/// "12 mm to the right and 3 mm up".
std::string by_words(const mesh::Point& by, const Case& c) {
  const bool plan = c.section.cut == mesh::Cut::plan;
  std::string text;
  if (std::abs(by.x()) > kNothing)
    text = fmt::format("{} to the {}", mm(std::abs(by.x())),
                       by.x() > 0 ? "right" : "left");
  if (std::abs(by.y()) > kNothing)
    text += fmt::format("{}{} {}", text.empty() ? "" : " and ",
                        mm(std::abs(by.y())),
                        plan ? (by.y() > 0 ? "to the back" : "to the front")
                             : (by.y() > 0 ? "up" : "down"));
  return text;
}

/// "plate, 2 mm by 30 mm", "rod, 2 mm across".
std::string form_of(const Solid& s) {
  const auto size = [&](const char* key) {
    const auto found = s.sizes.find(key);
    return found == s.sizes.end() ? std::string() : mm(found->second);
  };
  if (const std::string across = size("diameter"); !across.empty())
    return fmt::format("{}, {} across", s.shape, across);
  if (const std::string wide = size("width"); !wide.empty())
    return fmt::format("{}, {} by {}", s.shape, wide, size("height"));
  return s.shape;
}

void say_place(const Solid& from, const Solid& to, const Case& c,
               Lines& lines) {
  if (to.side && from.side == to.side) {
    if (std::abs(to.gap - from.gap) > kNothing)
      lines.push_back(fmt::format("move {} from {} to {} from the part",
                                  called(to), mm(from.gap), mm(to.gap)));
    return;
  }
  if (to.side || from.side) {
    lines.push_back(
        fmt::format("hang {} elsewhere: {}", called(to), place_of(to, c)));
    return;
  }
  const std::string by = by_words(to.at - from.at, c);
  if (!by.empty()) lines.push_back(fmt::format("move {} {}", called(to), by));
}

void say_sizes(const Solid& from, const Solid& to, Lines& lines) {
  for (const auto& [key, size] : to.sizes) {
    const auto old = from.sizes.find(key);
    if (old == from.sizes.end() || old->second == size) continue;
    std::string what = key;
    std::replace(what.begin(), what.end(), '_', ' ');
    lines.push_back(fmt::format("make the {} of {} {} in place of {}", what,
                                called(to), mm(size), mm(old->second)));
  }
}

void say_solid(const Solid& from, const Solid& to, const Case& c,
               Lines& lines) {
  if (from.shape != to.shape) {
    lines.push_back(fmt::format("in place of {} hang a {}, {}", called(from),
                                form_of(to), place_of(to, c)));
    return;
  }
  say_place(from, to, c, lines);
  say_sizes(from, to, lines);
  const double turn = to.turn - from.turn;
  if (std::abs(to_degrees(turn)) > 0.05)
    lines.push_back(fmt::format("turn {} by {}", called(to), turn_words(turn)));
}

std::string added(const Solid& s, const Case& drawn, const Case& planned) {
  const std::string where = place_of(s, planned);
  if (s.role == Role::thief)
    return fmt::format("hang a thief on the part's lead: {}, {}", form_of(s),
                       where);
  if (s.role != Role::anode)
    return fmt::format("put in a {}: {}, {}", role_of(s), form_of(s), where);
  for (const Solid& old : drawn.section.solids)
    if (old.role == Role::anode && old.shape == s.shape && old.sizes == s.sizes)
      return fmt::format("hang one more anode like {}, {}", called(old), where);
  return fmt::format("hang one more anode: {}, {}", form_of(s), where);
}

/// What goes, what stays elsewhere, what comes; then the part itself.
void say_solids(const Case& drawn, const Case& planned, Lines& lines) {
  for (const Solid& s : drawn.section.solids)
    if (!mesh::find_solid(planned.section, s.key))
      lines.push_back(fmt::format("take {} out", called(s)));
  mesh::Point moved = mesh::Point::Zero();
  Lines part;
  for (const Solid& s : drawn.section.solids) {
    const Solid* now = mesh::find_solid(planned.section, s.key);
    if (!now) continue;
    if (s.role == Role::part) {
      moved = now->at - s.at;
      say_solid(s, *now, planned, part);
      continue;
    }
    // A clip goes where the part goes.
    Solid with_part = s;
    if (s.role == Role::clip && !now->side) with_part.at += moved;
    say_solid(with_part, *now, planned, lines);
  }
  for (const Solid& s : planned.section.solids)
    if (!mesh::find_solid(drawn.section, s.key))
      lines.push_back(added(s, drawn, planned));
  lines.insert(lines.end(), part.begin(), part.end());
}

std::string setting(const Supply& s) {
  if (s.current) return digits(s.current->value) + " A";
  if (s.current_density)
    return digits(to_a_dm2(s.current_density->value)) + " A/dm²";
  return s.voltage ? digits(s.voltage->value) + " V" : "";
}

void say_supplies(const Case& drawn, const Case& planned, Lines& lines) {
  const auto say = [&](const std::string& who, const Supply& from,
                       const Supply& to) {
    const std::string was = setting(from), is = setting(to);
    if (was != is)
      lines.push_back(fmt::format("set {}{} in place of {}", who, is, was));
  };
  say("", drawn.supply, planned.supply);
  const std::size_t count =
      std::min(drawn.rectifiers.size(), planned.rectifiers.size());
  for (std::size_t k = 0; k < count; ++k)
    say(drawn.rectifiers[k].name + " to ", drawn.rectifiers[k].supply,
        planned.rectifiers[k].supply);
}

}  // namespace

Lines tank_changes(const Case& drawn, const Case& planned) {
  Lines lines;
  say_solids(drawn, planned, lines);
  const double level = planned.section.tank.level;
  if (std::abs(level - drawn.section.tank.level) > kNothing)
    lines.push_back(fmt::format("fill the tank to {} in place of {}", mm(level),
                                mm(drawn.section.tank.level)));
  return lines;
}

Lines plan_changes(const Case& drawn, const Case& planned) {
  Lines lines = tank_changes(drawn, planned);
  say_supplies(drawn, planned, lines);
  const Lines steps = step_changes(drawn, planned);
  lines.insert(lines.end(), steps.begin(), steps.end());
  return lines;
}

}  // namespace thinspot::io
