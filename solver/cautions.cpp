#include "solver/cautions.hpp"

#include "solver/section_error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace thinspot::solver {

namespace {

bool mentions(std::string text, const std::string& word) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char ch) { return std::tolower(ch); });
  return text.find(word) != std::string::npos;
}

bool any_anode(const Case& c, const std::string& word) {
  return std::any_of(c.anodes.begin(), c.anodes.end(), [&](const Anode& a) {
    return mentions(a.metal, word) || mentions(a.name, word);
  });
}

}  // namespace

std::vector<std::string> cautions_for(const Case& c) {
  std::vector<std::string> list{
      "The part goes to minus, the anodes to plus: reversed leads dissolve the "
      "part.",
      "Goggles and gloves. The salts and acids of plating solutions hurt eyes, "
      "skin and lungs: read their safety data sheets first, pour acid into "
      "water, never water into acid."};
  const std::string& metal = c.solution.metal.name;
  if (mentions(metal, "copper"))
    list.push_back(
        "Copper sulfate causes serious eye damage and is very toxic to life in "
        "water: nothing of it into the drain.");
  if (mentions(metal, "nickel") || any_anode(c, "nickel"))
    list.push_back(
        "Nickel salts can cause cancer when breathed in and allergy of skin "
        "and lungs; nickel finishes can sensitise skin that they touch for "
        "long.");
  if (mentions(metal, "silver") || mentions(metal, "gold"))
    list.push_back(
        "The common silver and gold baths are cyanide: for licensed shops "
        "only, never at home.");
  if (c.solution.efficiency.value < 0.995)
    list.push_back(
        "Below full current efficiency hydrogen forms at the part: ventilate, "
        "no flame, no closed jar; hard steel can turn brittle.");
  const bool inert = std::any_of(c.anodes.begin(), c.anodes.end(),
                                 [](const Anode& a) { return !a.soluble; });
  if (inert)
    list.push_back(
        "Inert anodes give off oxygen, and chlorine where there is chloride or "
        "salt in the solution: ventilate, and keep chloride out.");
  if (any_anode(c, "stainless") || any_anode(c, "chrom"))
    list.push_back(
        "Never use stainless steel as an anode: it dissolves to chromium(VI), "
        "which causes cancer.");
  list.push_back(
      "Supply: a low-voltage one that is isolated from the mains, with a "
      "current limit; dry hands; never leave it running unattended.");
  list.push_back(
      "Used solution and rinse water are hazardous waste under local rules. "
      "Nothing plated here is for food or drink.");
  list.push_back(
      "These lines do not replace safety data sheets, local codes or licensed "
      "practice.");
  return list;
}

std::vector<std::string> model_notes(const Case& c, double wagner) {
  std::vector<std::string> notes;
  if (c.cathode.at && (c.rack || !c.thieves.empty() || !c.clips.empty()))
    notes.push_back(
        "The slope of the polarization follows each cathode's own mean current "
        "density, so polarization does not even out how copies, clips and "
        "thieves share the current: between them the true differences are "
        "smaller than shown. Leave out polarization_at to see the other "
        "extreme.");
  if (c.section.cut == mesh::Cut::axisymmetric) return notes;
  const bool coin =
      std::any_of(c.section.solids.begin(), c.section.solids.end(),
                  [](const mesh::Solid& s) {
                    return s.role == mesh::Role::part && s.shape == "coin";
                  });
  if (coin) {
    const DiscRatios r = disc_ratios(wagner);
    notes.push_back(fmt::format(
        "A section treats the disc as a long strip. Against the disc itself "
        "the strip shows the thinnest spot about {:.0f} % and the heaviest "
        "about {:.0f} % too thick, at this Wagner number of {:.2g}; the bands "
        "include it.",
        100 * (1 / r.least - 1), 100 * (1 / r.largest - 1), wagner));
  } else {
    notes.push_back(
        "A planar section treats the part as long in the direction that is not "
        "drawn. Near its ends there the coating is heavier than shown, and "
        "beside them a little thinner; no figure is claimed for that.");
  }
  if (!c.wires.empty())
    notes.push_back(
        "Wires are counted, not drawn: a bare one is taken to draw twice the "
        "part's mean current density (common practice, no source).");
  return notes;
}

}  // namespace thinspot::solver
