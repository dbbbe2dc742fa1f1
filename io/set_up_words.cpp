#include "io/set_up_words.hpp"

#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "solver/place_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::Bare;
using solver::CathodeResult;
using solver::PartResult;
using solver::Result;

/// Less than this share of the whole is nothing to speak of.
constexpr double hardly_any = 1e-3;

/// On a rack clips carry the number of their copy: left out, so that copies
/// can be spoken of together.
std::string without_number(std::string text, int copy) {
  const std::string number = fmt::format(" {}", copy);
  if (copy > 0 && text.ends_with(number))
    text.resize(text.size() - number.size());
  return text;
}

/// "3.2 mm of the upper rim and 1 mm of the right face, under clip top" for
/// each reason, in the order in which the reasons come.
std::vector<std::string> bare_of(const PartResult& part, int copy) {
  std::vector<std::string> reasons;
  for (const Bare& b : part.bare)
    if (std::find(reasons.begin(), reasons.end(), b.why) == reasons.end())
      reasons.push_back(b.why);
  std::vector<std::string> lines;
  for (const std::string& why : reasons) {
    std::vector<std::pair<std::string, double>> faces;
    for (const Bare& b : part.bare) {
      if (b.why != why) continue;
      const auto known =
          std::find_if(faces.begin(), faces.end(),
                       [&](const auto& face) { return face.first == b.face; });
      if (known == faces.end())
        faces.emplace_back(b.face, b.to - b.from);
      else
        known->second += b.to - b.from;
    }
    std::vector<std::string> items;
    for (const auto& [face, length] : faces)
      items.push_back(fmt::format("{} mm of {}", digits(to_mm(length), 2),
                                  solver::face_in_words(face)));
    lines.push_back(with_and(items) + ", " + without_number(why, copy));
  }
  return lines;
}

/// One clip or thief, or all of them where they are many.
std::string share_of(const std::string& role, const std::string& roles,
                     const std::vector<CathodeResult>& list, double whole) {
  const auto share = [&](double current) {
    return fmt::format("{} A ({} %)", digits(current),
                       digits(100 * current / whole, 2));
  };
  if (list.size() > 2) {
    double sum = 0;
    for (const CathodeResult& c : list) sum += c.current;
    return fmt::format("{} {} take {}", list.size(), roles, share(sum));
  }
  std::vector<std::string> items;
  for (const CathodeResult& c : list)
    items.push_back(with_role(role, c.name) + " takes " + share(c.current));
  return with_and(items);
}

}  // namespace

std::string with_role(const std::string& role, const std::string& name) {
  return name.find(role) != std::string::npos ? name : role + " " + name;
}

std::string copies_words(const Result& result) {
  if (!result.rack || result.parts.size() < 2) return "";
  const solver::RackResult& rack = *result.rack;
  const solver::Spread& mean = rack.mean_thickness;
  const double apart = mean.mean > 0 ? (mean.max - mean.min) / mean.mean : 0;
  const std::string range =
      fmt::format("{} to {} over all of them", digits(to_um(rack.least), 2),
                  micrometres(rack.largest, 2));
  // Below a hundredth no gauge at a bench tells one copy from another.
  if (apart < 0.01)
    return fmt::format(
        "The {} copies come out alike, their means within {} %; {}.",
        rack.copies, digits(100 * apart, 1), range);
  return fmt::format(
      "Of {} copies {} comes out thinnest (mean {}) and {} heaviest ({}), {} % "
      "apart; {}.",
      rack.copies, result.parts.at(rack.thinnest).name, micrometres(mean.min),
      result.parts.at(rack.heaviest).name, micrometres(mean.max),
      digits(100 * apart, 2), range);
}

std::vector<std::string> bare_words(const Result& result) {
  struct Line {
    std::string text;
    std::vector<std::string> on;
  };
  std::vector<Line> lines;
  for (const PartResult& part : result.parts) {
    const int copy = part.solid < result.section.solids.size()
                         ? result.section.solids[part.solid].spec.copy
                         : 0;
    for (const std::string& text : bare_of(part, copy)) {
      const auto known =
          std::find_if(lines.begin(), lines.end(),
                       [&](const Line& line) { return line.text == text; });
      if (known == lines.end())
        lines.push_back({text, {part.name}});
      else
        known->on.push_back(part.name);
    }
  }
  std::vector<std::string> sentences;
  const std::size_t copies = result.parts.size();
  for (const Line& line : lines) {
    std::string where;
    if (copies > 1 && line.on.size() == copies)
      where = " on each copy";
    else if (copies > 1 && line.on.size() > 3)
      where = fmt::format(" on {} of {} copies", line.on.size(), copies);
    else if (copies > 1)
      where = " on " + with_and(line.on);
    sentences.push_back("Bare" + where + ": " + line.text + ".");
  }
  return sentences;
}

std::string shares_words(const Result& result) {
  if (result.clips.empty() && result.thieves.empty()) return "";
  const double whole = result.cell.current;
  std::vector<std::string> items;
  if (!result.clips.empty())
    items.push_back(share_of("clip", "clips", result.clips, whole));
  if (!result.thieves.empty())
    items.push_back(share_of("thief", "thieves", result.thieves, whole));
  double wires = 0;
  for (const solver::WireResult& w : result.wires) wires += w.current;
  if (wires > 0)
    items.push_back(fmt::format("wires take {} A ({} %)", digits(wires),
                                digits(100 * wires / whole, 2)));
  return fmt::format("Of {} A in all, {}.", digits(whole), with_and(items));
}

std::vector<std::string> floating_words(const Result& result) {
  std::vector<std::string> sentences;
  for (const solver::FloatingResult& f : result.floating) {
    const std::string name = fmt::format("{}, connected to nothing", f.name);
    if (f.through < hardly_any * result.cell.current) {
      sentences.push_back(name + ": hardly any current goes through it.");
      continue;
    }
    const auto& all = result.used.floating;
    const auto drawn = std::find_if(
        all.begin(), all.end(),
        [&](const solver::Floating& d) { return d.solid == f.solid; });
    const std::string metal =
        drawn == all.end() || drawn->metal.empty() ? "metal" : drawn->metal;
    sentences.push_back(fmt::format(
        "{}: {} A goes through it. It plates at up to {} A/dm² where it faces "
        "an anode, and dissolves at up to {} A/dm² on the other side, which "
        "puts its {} into the solution: take it out of the tank.",
        name, digits(f.through, 2), digits(to_a_dm2(f.plating), 2),
        digits(to_a_dm2(f.dissolving), 2), metal));
  }
  return sentences;
}

}  // namespace thinspot::io
