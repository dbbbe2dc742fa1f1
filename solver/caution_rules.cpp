#include "solver/cautions.hpp"

#include "solver/caution_facts.hpp"

namespace thinspot::solver {

// Most serious first.
const std::vector<CautionRule>& caution_rules() {
  using F = const CautionFacts&;
  static const std::vector<CautionRule> rules{
      {"cyanide",
       "the solution is a cyanide one, or silver or gold, whose common "
       "solutions are",
       "Cyanide never: with any acid it gives a gas that kills within "
       "breaths. The common silver and gold baths are cyanide: for "
       "licensed shops only, never at home.",
       "from memory",
       [](F f) {
         return f.has("cyanide") || f.plates("silver") || f.plates("gold");
       }},
      {"chromium(VI)", "the solution holds chromate or chromic acid",
       "Chromium(VI) causes cancer and is subject to authorisation in the "
       "European Union: not at home, in no amount.",
       "from memory", [](F f) { return f.has("chromate"); }},
      {"stainless anode", "an anode is of stainless steel or chromium",
       "Never use stainless steel as an anode: it dissolves to "
       "chromium(VI), which causes cancer.",
       "from memory; treat as a rule",
       [](F f) { return f.anode_of("stainless") || f.anode_of("chrom"); }},
      {"poisonous part",
       "the part is of, or coated with, cadmium, lead or chromium",
       "The part's metal or old coating is poisonous: do not file, sand, "
       "heat, strip or plate it.",
       "from memory", [](F f) { return f.part_is("toxic"); }},
      {"poisonous metal", "cadmium or lead is plated",
       "Cadmium and lead poison for good, as dust and as salts: for "
       "equipped, licensed shops.",
       "from memory",
       [](F f) { return f.plates("cadmium") || f.plates("lead"); }},
      {"fluoride", "the solution holds fluoride or fluoborate",
       "Fluoride in acid is hydrofluoric acid, which kills through the "
       "skin with hardly a burn to see: for equipped shops with the "
       "antidote at hand.",
       "from memory", [](F f) { return f.has("fluoride"); }},
      {"chlorine", "an anode is inert and the solution holds chloride",
       "Chloride meets an inert anode: it gives off chlorine, a poisonous "
       "gas. Use a soluble anode, or a solution without chloride.",
       "chlorine at graphite anodes in chloride solutions: a supplier's "
       "trade page (seen); the rest from memory",
       [](F f) { return f.inert && f.has("chloride"); }},
      {"chlorine unless",
       "an anode is inert and what is in the solution is not told",
       "Inert anodes give off oxygen, and chlorine, a poisonous gas, where"
       " there is chloride or salt in the solution: keep chloride out, "
       "ventilate.",
       "from memory", [](F f) { return f.inert && !f.known; }},
      {"oxygen", "an anode is inert",
       "Oxygen bubbles at an inert anode throw a mist of the solution into"
       " the air: cover loosely, ventilate, do not breathe it.",
       "from memory", [](F f) { return f.inert; }},
      {"acid eats part",
       "the part is of zinc, zinc-coated, aluminium or magnesium and the "
       "solution is acid",
       "Zinc, aluminium and galvanized parts dissolve in acid and give off"
       " much hydrogen: not into this solution bare, not into strong acid "
       "at all.",
       "from memory",
       [](F f) { return f.part_is("dissolves in acid") && f.has("acid"); }},
      {"caustic eats part",
       "the part is of aluminium or zinc and the solution is alkaline",
       "Zinc and aluminium dissolve in caustic solutions too, with "
       "hydrogen: no soaking without current.",
       "from memory",
       [](F f) { return f.part_is("dissolves in acid") && f.has("alkali"); }},
      {"embrittlement", "the part is of hardened or high-strength steel",
       "Hydrogen makes hard and spring steel brittle: it can break without"
       " a warning, days later. Bake it by the standard, or leave it to a "
       "shop that does.",
       "ASTM B850 and ISO 9588, from memory",
       [](F f) { return f.part_is("turns brittle"); }},
      {"hydrogen", "the current efficiency is below 100 %",
       "Below full current efficiency hydrogen forms at the part: "
       "ventilate, no flame, no spark, no closed jar.",
       "Faraday's law: 0.42 l/h an ampere at 0 °C; the rest from memory",
       [](F f) { return f.hydrogen; }},
      {"peroxide",
       "the solution holds peroxide, or acetic acid and acetate, which "
       "recipes mix with it",
       "Hydrogen peroxide mixed with vinegar makes peracetic acid, which "
       "burns eyes, skin and lungs; with metal it foams over hot. Never "
       "strong, never stored, never in a closed bottle.",
       "from memory",
       [](F f) { return f.has("peroxide") || f.has("acetate"); }},
      {"ammonia", "the solution holds ammonium",
       "Ammonium gives ammonia gas with alkali, and must never meet "
       "bleach.",
       "from memory", [](F f) { return f.has("ammonium"); }},
      {"voltage", "more than 24 V can be set",
       "More than 24 V is no bench for wet hands: stay at a safe low "
       "voltage.",
       "from memory", [](F f) { return f.volts > 24; }},
      {"adapter", "a mains adapter feeds the bath",
       "An adapter limits no current: never without the series resistor, "
       "which gets hot, and a fuse. Only a closed one with a safety mark; plug "
       "it in last and pull it first.",
       "common practice, no source", [](F f) { return f.adapter; }},
      {"reversed leads", "always",
       "The part goes to minus, the anodes to plus: reversed leads "
       "dissolve the part.",
       "common practice, no source", [](F) { return true; }},
      {"eyes and skin", "always",
       "Goggles and gloves. The salts and acids of plating solutions hurt "
       "eyes, skin and lungs: read their safety data sheets first.",
       "safety cards ICSC 1416 and 0063 (seen) for copper and nickel "
       "sulfate; the rest from memory",
       [](F) { return true; }},
      {"acid into water", "always",
       "Pour acid into water, slowly, never water into acid: that goes for"
       " the dips too. Never acid together with bleach.",
       "from memory", [](F) { return true; }},
      {"nickel salts", "nickel is plated or an anode is of it",
       "Nickel salts can cause cancer when breathed in and allergy of skin"
       " and lungs; no dust, no mist, no bare skin.",
       "safety card ICSC 0063 and a supplier's data sheet (seen)",
       [](F f) { return f.has("nickel") || f.anode_of("nickel"); }},
      {"nickel finish", "nickel is plated",
       "A nickel finish can sensitise skin that it touches for long: "
       "nothing to be worn on the skin.",
       "REACH Annex XVII entry 27, from memory",
       [](F f) { return f.plates("nickel"); }},
      {"copper salts", "copper is plated",
       "Copper sulfate causes serious eye damage and is very toxic to life"
       " in water: nothing of it into the drain.",
       "safety card ICSC 1416 (seen)", [](F f) { return f.has("copper"); }},
      {"zinc salts", "zinc is plated",
       "Zinc salts damage eyes and are very toxic to life in water: "
       "nothing of them into the drain.",
       "from memory", [](F f) { return f.has("zinc"); }},
      {"tin salts", "tin is plated",
       "Tin(II) salts and their acids irritate and can make skin allergic:"
       " gloves, no mist.",
       "from memory", [](F f) { return f.has("tin"); }},
      {"caustic", "the solution is alkaline",
       "Alkaline solutions burn eyes worse than acids do: goggles, and "
       "never into hot water at once.",
       "from memory", [](F f) { return f.has("alkali"); }},
      {"hot", "the solution is warmer than 40 °C",
       "Warm solution gives off more fume and dries out: lid off only "
       "under moving air, level watched, heater never bare of liquid.",
       "from memory", [](F f) { return f.warmest > 313.15; }},
      {"dissolving anode", "an anode is of lead or galvanized",
       "Lead and galvanized anodes poison or spoil the solution: what "
       "dissolves of them is in it, and in the waste.",
       "from memory",
       [](F f) { return f.anode_of("lead") || f.anode_of("galvani"); }},
      {"supply", "always",
       "Supply: a low-voltage one that is isolated from the mains, with a "
       "current limit and a fuse; no adapter of unknown make, dry hands, "
       "off before you touch anything.",
       "from memory", [](F) { return true; }},
      {"unattended", "always", "Never leave it running unattended.",
       "from memory", [](F) { return true; }},
      {"coins", "the part is a coin",
       "Altering or plating money may be an offence where you live: use "
       "blanks and tokens of your own.",
       "from memory", [](F f) { return f.coin; }},
      {"food", "always",
       "Nothing plated here is for food or drink, whatever its shape.",
       "from memory", [](F) { return true; }},
      {"closed hollows", "the part is drawn as a closed tube or shell",
       "A closed hollow part traps solution in seams, bleeds later, and "
       "can burst when baked: plate it open, with holes to drain, or not "
       "at all.",
       "from memory", [](F f) { return f.hollow; }},
      {"labels", "always",
       "Label every vessel; no food jars; locked away from children and "
       "animals.",
       "from memory", [](F) { return true; }},
      {"first aid", "always",
       "First aid as the safety data sheet has it: read it before, water "
       "for eyes within reach; call for help with what was spilt named.",
       "from memory", [](F) { return true; }},
      {"waste", "always",
       "Used solution and rinse water are hazardous waste under local "
       "rules: collect them, nothing into the drain, the soil or the "
       "household bin.",
       "not into the environment: ICSC 1416 and 0063 (seen); the rest from"
       " memory",
       [](F) { return true; }},
      {"no replacement", "always",
       "These lines do not replace safety data sheets, local codes or "
       "licensed practice.",
       "common practice, no source", [](F) { return true; }},
  };
  return rules;
}

}  // namespace thinspot::solver
