#include "tests/unit/planned_changes.hpp"

#include "solver/plan_variables.hpp"
#include "solver/step_case.hpp"

#include <numbers>
#include <string>

namespace thinspot::tests {

using mesh::Role;
using mesh::Solid;
using solver::Case;

namespace {

bool each_anode(Case& c, const std::function<bool(Solid&)>& change) {
  bool any = false;
  for (const solver::Anode& a : c.anodes)
    any = change(c.section.solids[a.solid]) || any;
  return any;
}

bool move_part(Case& c) {
  if (c.rack) return false;
  const bool axis = c.section.cut == mesh::Cut::axisymmetric;
  const std::string key = axis ? "part.at.y" : "part.at.x";
  solver::place_value(c, key, *solver::placed_value(c, key) + 1.5e-3);
  return true;
}

bool add_spares(Case& c) {
  for (const bool thief : {false, true}) {
    Solid solid;
    solid.role = thief ? Role::thief : Role::shield;
    solid.name = thief ? "thief 2" : "shield 2";
    solid.key = (thief ? "thief." : "shield.") + solid.name;
    solid.shape = thief ? "rod" : "plate";
    solid.sizes = thief ? mesh::Sizes{{"diameter", 2e-3}}
                        : mesh::Sizes{{"width", 2e-3}, {"height", 0.03}};
    if (c.section.cut == mesh::Cut::axisymmetric && thief)
      solid.sizes["length"] = 0.01;
    const bool axis = c.section.cut == mesh::Cut::axisymmetric;
    solid.at = {axis ? 0.0 : 12.3456e-3, 9e-3};
    if (thief)
      c.thieves.push_back({solid.name, c.section.solids.size(), {}, {}});
    c.section.solids.push_back(solid);
  }
  return true;
}

}  // namespace

bool add_anode(Case& c) {
  solver::Anode anode = c.anodes.front();
  Solid solid = c.section.solids[anode.solid];
  anode.name = solid.name = "one \"more\"";
  solid.key = "anode." + solid.name;
  solid.at.y() += 3e-3;
  solid.gap += 2e-3;
  anode.solid = c.section.solids.size();
  c.section.solids.push_back(solid);
  c.anodes.push_back(anode);
  return true;
}

bool lose_anode(Case& c) {
  if (c.anodes.size() < 2 || !c.rectifiers.empty()) return false;
  for (const solver::Step& s : c.steps)
    if (!s.off.empty() || !s.lifted.empty()) return false;
  Case one = c;
  one.steps = {solver::Step{c.steps.front().duration}};
  one.steps.front().lifted = {c.anodes.front().name};
  const Case fewer = solver::case_of_step(one, 0);
  c.section.solids = fewer.section.solids;
  c.section.masks = fewer.section.masks;
  c.anodes = fewer.anodes;
  c.thieves = fewer.thieves;
  c.floating = fewer.floating;
  c.clips = fewer.clips;
  return true;
}

std::vector<Change> plan_changes() {
  const double pi = std::numbers::pi;
  return {
      {"nothing", [](Case&) { return true; }},
      {"times",
       [](Case& c) {
         for (solver::Step& s : c.steps)
           s.duration = {0.37 * s.duration.value + 7, 0};
         return true;
       }},
      {"currents",
       [](Case& c) {
         const auto scale = [](solver::Supply& s) {
           for (auto* q : {&s.current, &s.current_density, &s.voltage})
             if (*q) (*q)->value *= 1.371;
         };
         scale(c.supply);
         for (auto& r : c.rectifiers) scale(r.supply);
         for (solver::Step& s : c.steps) {
           if (s.supply) scale(*s.supply);
           if (s.rectifiers)
             for (auto& supply : *s.rectifiers) scale(supply);
         }
         return true;
       }},
      {"a voltage in place of a current",
       [](Case& c) {
         if (!c.rectifiers.empty() || c.supply.adapter) return false;
         c.supply.current.reset();
         c.supply.current_density.reset();
         c.supply.voltage = solver::Quantity{1.25, 0.05};
         return true;
       }},
      {"places of anodes",
       [](Case& c) {
         const bool axis = c.section.cut == mesh::Cut::axisymmetric;
         return each_anode(c, [&](Solid& s) {
           if (s.side)
             s.gap *= 0.9;
           else
             s.at += mesh::Point(axis ? 0 : 1.25e-3, 1e-3 / 3);
           return true;
         });
       }},
      {"anodes by their centre",
       [](Case& c) {
         return each_anode(c, [&](Solid& s) {
           const bool beside = s.side.has_value();
           s.side.reset();
           s.gap = 0;
           if (beside) s.at = {4e-3, 50e-3};
           return beside;
         });
       }},
      {"another side",
       [](Case& c) {
         return each_anode(c, [&](Solid& s) {
           if (!s.side) return false;
           s.side = s.side == mesh::Side::left ? mesh::Side::right
                                               : mesh::Side::above;
           return true;
         });
       }},
      {"sizes of anodes",
       [](Case& c) {
         return each_anode(c, [](Solid& s) {
           const auto height = s.sizes.find("height");
           if (height == s.sizes.end()) return false;
           height->second *= 0.8;
           return true;
         });
       }},
      {"turns of anodes",
       [&, pi](Case& c) {
         if (c.section.cut == mesh::Cut::axisymmetric) return false;
         return each_anode(c, [pi](Solid& s) {
           s.turn += pi / 7;
           return true;
         });
       }},
      {"a rod in place of an anode",
       [](Case& c) {
         const bool axis = c.section.cut == mesh::Cut::axisymmetric;
         Solid& s = c.section.solids[c.anodes.front().solid];
         if (s.shape == "rod") return false;
         s.shape = "rod";
         s.sizes = {{"diameter", 8e-3}};
         if (axis) s.sizes["length"] = 0.02;
         s.drawn = {};
         s.side.reset();
         s.gap = 0;
         s.turn = 0;
         s.at = {axis ? 0 : 10e-3, 40e-3};
         return true;
       }},
      {"the part's place", move_part},
      {"one anode more", add_anode},
      {"one anode less", lose_anode},
      {"a shield and a thief", add_spares},
      {"the level",
       [](Case& c) {
         if (c.section.cut == mesh::Cut::plan) return false;
         c.section.tank.level *= 0.975;
         return true;
       }},
      {"one step",
       [](Case& c) {
         solver::Step s = c.steps.front();
         s.duration = {1501, 0};
         s.motion = {};
         s.turning.reset();
         c.steps = {s};
         return true;
       }},
      {"four steps that turn",
       [pi](Case& c) {
         if (c.section.cut == mesh::Cut::axisymmetric) return false;
         solver::Step s = c.steps.front();
         s.turning.reset();
         c.steps.clear();
         for (int k = 0; k < 4; ++k) {
           s.duration = {k < 2 ? 660.0 : 590.0, 0};
           s.motion = c.section.cut == mesh::Cut::side
                          ? mesh::Motion{k % 2 == 1, k > 1 ? pi : 0}
                          : mesh::Motion{false, 2 * pi * k / 3};
           c.steps.push_back(s);
         }
         return true;
       }},
      {"a motor",
       [](Case& c) {
         if (c.section.cut == mesh::Cut::axisymmetric || c.growth) return false;
         c.steps.front().turning = solver::Turning{0, 0, 0.1};
         for (solver::Step& s : c.steps) s.turning = c.steps.front().turning;
         c.steps.push_back(c.steps.back());
         c.steps.back().turning = solver::Turning{4, 30, 0};
         c.steps.push_back(c.steps.back());
         c.steps.back().turning.reset();
         return true;
       }},
      {"another current in the second step",
       [](Case& c) {
         if (!c.rectifiers.empty() || c.supply.adapter) return false;
         c.steps.resize(1);
         c.steps.push_back(c.steps.front());
         solver::Supply s = c.steps.front().supply.value_or(c.supply);
         s.current = solver::Quantity{0.123, 0};
         s.current_density.reset();
         s.voltage.reset();
         s.voltage_limit = 5;
         c.steps.back().supply = s;
         c.steps.push_back(c.steps.front());
         if (!c.steps.back().supply) c.steps.back().supply = c.supply;
         c.steps.back().supply->voltage_limit = 5.5;
         return true;
       }},
      {"much at once",
       [](Case& c) {
         move_part(c);
         add_anode(c);
         add_spares(c);
         for (solver::Step& s : c.steps) s.duration = {1234, 0};
         c.steps.push_back(c.steps.back());
         return true;
       }},
  };
}

}  // namespace thinspot::tests
