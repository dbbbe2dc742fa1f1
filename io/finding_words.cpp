#include "io/finding_words.hpp"

#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/preparation_words.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::Finding;
using solver::Look;

std::string density(double value) { return digits(to_a_dm2(value)) + " A/dm²"; }
std::string percent(double share) { return digits(100 * share, 2) + " %"; }
std::string mm(double metres) { return digits(to_mm(metres), 2) + " mm"; }
std::string cm2(double area) { return digits(to_cm2(area)) + " cm²"; }

std::string_view role_word(mesh::Role role) {
  switch (role) {
    case mesh::Role::part: return "part";
    case mesh::Role::clip: return "clip";
    case mesh::Role::anode: return "anode";
    case mesh::Role::thief: return "thief";
    case mesh::Role::shield: return "shield";
    case mesh::Role::floating: return "loose metal";
  }
  return "";
}

std::string face_text(const std::string& face) {
  return "face \"" + face + "\"";
}

/// @param who  the solids that the finding is about, listed
std::string on_currents(const Finding& f, const std::string& who) {
  switch (f.look) {
    case Look::above_burning:
      return fmt::format(
          "{} on average is above the {} at which it burns: lower the current.",
          density(f.value), density(f.limit));
    case Look::above_range:
      return fmt::format(
          "{} on average is more than the usual {}: expect dark, rough edges.",
          density(f.value), density(f.limit));
    case Look::near_limiting:
      return fmt::format(
          "{} on average is {} of the limiting current density: edges will "
          "burn. Stir, warm, or lower the current.",
          density(f.value), percent(f.value / f.limit));
    case Look::below_range:
      return fmt::format(
          "{} on average is less than the usual {}: slow, and the coating may "
          "come out dull.",
          density(f.value), density(f.limit));
    case Look::over_voltage_limit:
      return fmt::format(
          "{} takes roughly {} V, but the limit stands at {} V: the current "
          "may stay below what is set.",
          f.face.empty() ? "It" : "Rectifier " + f.face, digits(f.value, 2),
          digits(f.limit));
    case Look::adapter_too_weak:
      return fmt::format(
          "{} takes roughly {} V, more than the adapter's {} V: it cannot "
          "drive this current. One of more volts, a smaller gap, or less "
          "current.",
          f.face.empty() ? "It" : "Rectifier " + f.face, digits(f.value, 2),
          digits(f.limit));
    case Look::time_too_short:
      return fmt::format(
          "The target takes {} even at the mean, and {} are planned; the "
          "thinnest spot takes longer still.",
          duration_text(f.value), duration_text(f.limit));
    case Look::anode_overloaded:
      return fmt::format(
          "The anodes run at {}; above some {} they dissolve badly and turn "
          "dark. Larger ones, or less current.",
          density(f.value), density(f.limit));
    default: break;
  }
  return who;
}

std::string on_places(const Finding& f, const std::string& who) {
  switch (f.look) {
    case Look::face_not_wetted:
      return f.value < 0.005
                 ? fmt::format(
                       "The {} of {} counts for the target but gets no "
                       "current: it is out of the liquid, covered or masked.",
                       face_text(f.face), who)
                 : fmt::format(
                       "Only {} of the {} of {}, which counts for the target, "
                       "is bare metal in the liquid.",
                       percent(f.value), face_text(f.face), who);
    case Look::clip_apart:
      return fmt::format("{} does not touch the part: {} are between them.",
                         capital(who), mm(f.value));
    case Look::touches_wall:
      return fmt::format("{} touches the tank's wall: nothing plates there.",
                         capital(who));
    case Look::anode_too_near:
      return fmt::format(
          "{} stands {} from the part, which is {} thick: expect a burnt patch "
          "opposite, and a short circuit if anything swings.",
          capital(who), mm(f.value), mm(f.limit));
    case Look::turns_as_a_wheel:
      return "In a side view the part turns in the plane of the drawing, as a "
             "wheel does. To turn it about the wire that it hangs on, draw it "
             "as seen from above, view = \"plan\"; half a turn about that "
             "wire is flip = true.";
    case Look::shadowed:
      if (who.find("clip") != std::string::npos)
        return fmt::format(
            "{} stands over {} of the {}: it will be thin there. Hold the part "
            "elsewhere, or by something smaller.",
            capital(who), percent(f.value), face_text(f.face));
      return fmt::format(
          "{} shades {} of the {}: it will be thin there. Move it off by more "
          "than its own width.",
          capital(who), percent(f.value), face_text(f.face));
    case Look::anode_too_short:
      return fmt::format(
          "The largest anode, {}, stands opposite {} of the part's extent "
          "only: what reaches beyond it gets less.",
          who, percent(f.value));
    case Look::half_dipped:
      return fmt::format(
          "{} of the outline of {} is out of the liquid and stays bare.",
          percent(f.value), who);
    case Look::near_surface:
      return fmt::format(
          "The top of {} is {} below the surface: a little evaporation or "
          "swinging bares it.",
          who, mm(f.value));
    case Look::near_floor:
      return fmt::format(
          "{} hangs {} above the floor, where sludge is stirred up.",
          capital(who), mm(f.value));
    default: break;
  }
  return who;
}

bool moves(const solver::Case& c) {
  return std::any_of(c.steps.begin(), c.steps.end(), [](const auto& step) {
    return step.turning || !(step.motion == mesh::Motion{});
  });
}

std::string on_areas_and_metals(const Finding& f, const std::string& who,
                                const solver::Case& c) {
  const std::string& plated = c.solution.metal.name;
  switch (f.look) {
    case Look::immersion_deposit:
      if (const auto p = solver::prepare(c)) return words_for(*p).verdict;
      break;
    case Look::other_class_metal:
      return fmt::format(
          "{} {} is a class of {}, and this solution plates {}: its thickness "
          "means nothing here. Choose a class of that metal.",
          c.target.standard, c.target.thickness_class, c.target.class_metal,
          plated);
    case Look::small_anodes:
      return fmt::format(
          "The anodes have {} of the cathode's area; as much to twice as much "
          "is usual. Small ones may stop dissolving.",
          percent(f.value));
    case Look::other_anode_metal:
      return fmt::format(
          "{} is not {}: what dissolves of it gets into the solution.",
          capital(who), plated);
    case Look::area_disagrees:
      return fmt::format(
          "Outline and depth give the part {}, its sizes {}: a section of that "
          "depth takes another current than the part does.",
          cm2(f.value), cm2(f.limit));
    case Look::wall_for_a_clip:
      return fmt::format(
          "{}, drawn {} thick, counts as a wall {} deep, as deep as the "
          "section: it takes more current and shades more than what is really "
          "there. If that is a strip or wire, leave it out and enter it as "
          "[[wire]]{}.",
          capital(who), mm(f.limit), mm(f.value),
          moves(c) ? ", or draw the set-up as seen from above, view = "
                     "\"plan\", where an upright wire is a round dot"
                   : "");
    case Look::much_clip:
      return fmt::format(
          "Clips are {} of the cathode's area and take metal and current "
          "accordingly. Insulate them down to the contact.",
          percent(f.value));
    case Look::much_wire:
      return fmt::format(
          "Bare wire is {} of the cathode's area and draws about twice its "
          "share. Insulate it down to the contact.",
          percent(f.value));
    case Look::metal_from_solution:
      return fmt::format(
          "No anode dissolves: the solution loses {} g of {} and turns weaker "
          "and more acid.",
          digits(to_grams(f.value), 2), plated);
    case Look::nothing_holds:
      return "Nothing holds the part: enter its bare wire or hook as [[wire]] "
             "or [[clip]], it takes its share of the current.";
    default: break;
  }
  return who;
}

std::string sentence(const Finding& f, const std::string& who,
                     const solver::Case& c) {
  for (const std::string& text : {on_currents(f, who), on_places(f, who)})
    if (text != who) return text;
  return on_areas_and_metals(f, who, c);
}

}  // namespace

std::string solid_in_words(const mesh::Section& section,
                           const std::string& key) {
  for (const mesh::PlacedSolid& s : section.solids) {
    if (s.spec.key != key) continue;
    if (s.spec.role == mesh::Role::part)
      return s.spec.copy == 0 ? "the part"
                              : fmt::format("copy {}", s.spec.copy);
    const std::string role(role_word(s.spec.role));
    return s.spec.name.find(role) != std::string::npos
               ? s.spec.name
               : role + " " + s.spec.name;
  }
  return key;
}

std::vector<std::string> sentences_for(const solver::Inspection& inspection,
                                       const solver::Case& c) {
  std::vector<std::string> sentences;
  const auto& all = inspection.findings;
  for (std::size_t k = 0; k < all.size(); ++k) {
    const auto alike = [&](const Finding& f) {
      return f.look == all[k].look && f.face == all[k].face;
    };
    if (std::any_of(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(k),
                    alike))
      continue;
    Finding worst = all[k];
    std::vector<std::string> names;
    for (const Finding& f : all)
      if (alike(f)) {
        const std::string name = solid_in_words(inspection.section, f.solid);
        if (std::find(names.begin(), names.end(), name) == names.end())
          names.push_back(name);
      }
    sentences.push_back(sentence(worst, with_and(names), c));
  }
  return sentences;
}

}  // namespace thinspot::io
