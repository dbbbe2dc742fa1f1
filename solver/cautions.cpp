#include "solver/cautions.hpp"

#include "solver/caution_facts.hpp"
#include "solver/section_error.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::solver {

std::vector<std::string> cautions_for(const Case& c) {
  const CautionFacts facts = caution_facts(c);
  std::vector<std::string> list;
  for (const CautionRule& rule : caution_rules())
    if (rule.applies(facts)) list.push_back(rule.text);
  return list;
}

const CautionRule* caution_of(const std::string& text) {
  for (const CautionRule& rule : caution_rules())
    if (rule.text == text) return &rule;
  return nullptr;
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
