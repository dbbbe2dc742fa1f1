#include "io/inspection_words.hpp"

#include "io/adapter_words.hpp"
#include "io/finding_words.hpp"
#include "io/number_text.hpp"
#include "io/solution_words.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::Case;
using solver::Inspection;

std::string verdict(std::size_t count) {
  if (count == 0) return "Nothing looks wrong.";
  return count == 1 ? "One thing to look at before the part gets wet:"
                    : fmt::format(
                          "{} things to look at before the part gets "
                          "wet:",
                          count);
}

std::string cm2(double area) { return digits(to_cm2(area)) + " cm²"; }

std::string range(double low, double high, int count = 2) {
  const std::string a = digits(low, count), b = digits(high, count);
  return a == b ? a : a + " to " + b;
}

std::string beside_the_part(const Inspection& i) {
  std::string text;
  const auto add = [&](const char* what, double area) {
    if (area > 0)
      text += fmt::format("{}{} {}", text.empty() ? " Beside it plate: " : ", ",
                          what, cm2(area));
  };
  add("bare wire", i.areas.wires);
  add("clips", i.areas.clips);
  add("thieves", i.areas.thieves);
  return text.empty() ? text : text + ".";
}

std::string part(const Inspection& i, const Case& c) {
  const auto [least, most] =
      std::minmax_element(i.areas.parts.begin(), i.areas.parts.end());
  std::string text;
  if (i.areas.parts.size() == 1)
    text = cm2(i.areas.part) + " wetted";
  else
    text = fmt::format(
        "{} copies of {} cm² each, {} wetted in all", i.areas.parts.size(),
        range(to_cm2(*least), to_cm2(*most), 3), cm2(i.areas.part));
  const std::string depth = digits(to_mm(i.depth)) + " mm";
  const auto& solids = c.section.solids;
  const auto drawn = std::find_if(
      solids.begin(), solids.end(),
      [](const mesh::Solid& s) { return s.role == mesh::Role::part; });
  switch (i.depth_from) {
    case solver::DepthFrom::given:
      text += fmt::format(", at the depth of {} that is given.", depth);
      break;
    case solver::DepthFrom::area:
      text += fmt::format(
          "; the area given makes the section stand for {} of depth.", depth);
      break;
    case solver::DepthFrom::shape:
      text += fmt::format(
          "; the real area of the {} makes the section stand for {} of depth.",
          drawn->shape, depth);
      break;
    case solver::DepthFrom::none: text += "."; break;
  }
  return text + beside_the_part(i);
}

/// A handbook's range is for solution that moves; in one that hardly does less
/// is safe. Common practice, no source.
bool asks_for_stirring(const Inspection& i, const Case& c) {
  return i.usual->agitated &&
         (c.solution.stirring == "still" || c.solution.stirring == "gentle");
}

std::string current(const Inspection& i, const Case& c) {
  std::string text = fmt::format(
      "{} A{} is {} A/dm² on the part", digits(i.cell.current),
      i.cell.by_voltage ? ", roughly," : "", digits(to_a_dm2(i.cell.density)));
  if (!i.usual)
    return text +
           "; no usual range is known for this solution. Give [target] "
           "working_range.";
  const char* where = i.cell.density < i.usual->low    ? "below"
                      : i.cell.density > i.usual->high ? "above"
                                                       : "inside";
  text += fmt::format(", {} the usual {} A/dm², which is {} A here ({}", where,
                      range(to_a_dm2(i.usual->low), to_a_dm2(i.usual->high)),
                      range(i.usual_current.low, i.usual_current.high),
                      i.usual->source);
  return text + (asks_for_stirring(i, c)
                     ? "; that is for stirred solution, in a still one keep to "
                       "the lower half)."
                     : ").");
}

std::string room(double limit, double expected) {
  const double left = limit - expected;
  if (left <= 0) return ": above its limit";
  return fmt::format("; {} V are left up to the limit of {} V", digits(left, 2),
                     digits(limit));
}

/// Each rectifier with what it should show.
std::string rectifiers(const Inspection& i, const Case& c) {
  std::string text;
  for (std::size_t r = 0; r < c.rectifiers.size(); ++r) {
    const solver::RectifierEstimate& e = i.cell.rectifiers[r];
    const solver::Supply& s = c.rectifiers[r].supply;
    text +=
        fmt::format("{}{}: at {} {} roughly {} {}, anything from {}",
                    r > 0 ? ". " : "", c.rectifiers[r].name,
                    e.by_voltage ? digits(e.voltage) : digits(e.current),
                    e.by_voltage ? "V" : "A",
                    e.by_voltage ? digits(e.current, 2) : digits(e.voltage, 2),
                    e.by_voltage ? "A" : "V", range(e.range.low, e.range.high));
    if (s.voltage_limit && !e.by_voltage)
      text += room(*s.voltage_limit, e.voltage);
  }
  return text + ".";
}

std::string voltage(const Inspection& i, const Case& c) {
  if (!c.rectifiers.empty()) return rectifiers(i, c);
  const std::string expected = range(i.cell.range.low, i.cell.range.high);
  if (i.cell.by_voltage)
    return fmt::format(
        "at {} V the ammeter should read roughly {} A, anything from {}.",
        digits(i.cell.voltage), digits(i.cell.current, 2), expected);
  std::string text =
      fmt::format("the supply should read roughly {} V, anything from {}",
                  digits(i.cell.voltage, 2), expected);
  if (c.supply.voltage_limit)
    text += room(*c.supply.voltage_limit, i.cell.voltage);
  return text + ".";
}

/// Whose class the thickness is; what it is for, and how sure, is told after.
std::string asked_by(const solver::Target& t) {
  return t.standard.empty()
             ? ""
             : fmt::format(" ({}, {})", t.standard, t.thickness_class);
}

std::string time(const Inspection& i, const Case& c) {
  const std::string planned = duration_text(total_duration(c));
  const std::string mean = digits(to_um(i.mean_thickness), 2) + " µm";
  if (!i.time_needed)
    return fmt::format("{} give {} on average.", planned, mean);
  return fmt::format(
      "{} µm{} take about {} at the mean; the {} planned give {} on average. "
      "The thinnest spot takes longer: solve tells how much.",
      digits(to_um(*c.target.thickness)), asked_by(c.target),
      duration_text(*i.time_needed < 600 ? *i.time_needed
                                         : 60 * std::ceil(*i.time_needed / 60)),
      planned, mean);
}

std::string anodes(const Inspection& i) {
  return fmt::format(
      "{} wetted, {} times the cathode; common practice has once to twice.",
      cm2(i.areas.anodes), digits(i.anode_ratio, 2));
}

std::string mm(double metres) { return digits(to_mm(metres), 2) + " mm"; }

std::string ledges(const std::vector<solver::Ledge>& all, std::string_view lead,
                   std::string_view consequence) {
  if (all.empty()) return "";
  std::string text;
  for (const solver::Ledge& l : all)
    text += fmt::format("{}\"{}\" over {}", text.empty() ? "" : ", ", l.face,
                        mm(l.width));
  return fmt::format("{} {}; {}.", lead, text, consequence);
}

std::vector<std::string> hanging(const Inspection& i) {
  std::vector<std::string> lines;
  if (!i.hanging) return lines;
  const solver::Hanging& h = *i.hanging;
  const char* each = i.areas.parts.size() > 1 ? "in each copy " : "";
  for (const solver::Pocket& p : h.hollows)
    lines.push_back(fmt::format(
        "{}gas stays in a hollow under \"{}\", {} high and {} wide: bare "
        "there. Turn its mouth up, or tilt it until the gas gets out.",
        each, p.face, mm(p.depth), mm(p.width)));
  for (const solver::Pocket& p : h.pools)
    lines.push_back(fmt::format(
        "{}a pool of {} ml stays on \"{}\" when lifted, {} deep: tip it out "
        "over the tank.",
        each, digits(1e6 * p.area * i.depth, 2), p.face, mm(p.depth)));
  for (const std::string& text :
       {ledges(h.shelves, "nearly level, facing up:", "sludge settles there"),
        ledges(h.undersides, "nearly level, facing down:",
               "bubbles cling there; move the part now and then")})
    if (!text.empty()) lines.push_back(text);
  if (lines.empty())
    lines.emplace_back("no hollow for gas, no pool, no shelf for sludge.");
  return lines;
}

}  // namespace

InspectionWords words_for(const Inspection& inspection, const Case& c) {
  InspectionWords w;
  w.looks = sentences_for(inspection, c);
  w.verdict = verdict(w.looks.size());
  w.part = part(inspection, c);
  w.solution = solution_in_words(c.solution);
  w.current = current(inspection, c);
  w.voltage = voltage(inspection, c);
  w.supply = supply_words(inspection, c);
  w.time = time(inspection, c);
  w.anodes = anodes(inspection);
  w.hanging = hanging(inspection);
  return w;
}

}  // namespace thinspot::io
