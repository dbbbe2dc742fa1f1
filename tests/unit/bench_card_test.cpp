// The card for the bench: all of it on the sheet, nothing on anything else.
#include "viz/bench_card.hpp"

#include "io/card_words.hpp"
#include "io/case_file.hpp"
#include "solver/cautions.hpp"
#include "solver/face_letters.hpp"
#include "solver/simulate.hpp"
#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"
#include "tests/unit/synthetic_set_ups.hpp"
#include "viz/card_block.hpp"
#include "viz/face_tags.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

/// Letters below 7 pt are too small; a page unit is 148 mm / 540.
constexpr double kSevenPoints = 7 * (25.4 / 72) * 540 / 148;

viz::CardWords words(const solver::Result& r) {
  return {.title = r.used.title,
          .tank = "Acid copper, 25 °C, gentle stirring",
          .verdict = "Target met.",
          .todo = {"Plate for about 46 min in place of 40 min at the same "
                   "current; the heaviest spot then grows to about 29 µm."},
          .steps = {"Set 0.33 A (limit 6 V), expect 0.34 V (0.30 to 0.40); 40 "
                    "min."},
          .meter = {"Half the volts: a short.", "Twice the volts: a contact."},
          .thickness = {"Wanted 10 µm: least 9 µm, mean 15 µm, largest 21 µm."},
          .cautions = {"Goggles and gloves.", "Never alone.", "Never hungry.",
                       "Never in haste.", "Never at night."}};
}

std::string card(const solver::Result& r) {
  return viz::bench_card(r, words(r));
}

/// As `solve` makes it.
std::string solved_card(const std::vector<std::filesystem::path>& files) {
  std::vector<solver::Case> cases;
  for (const auto& file : files) cases.push_back(io::read_case(file).content);
  const solver::Result r = solver::simulate(cases);
  const io::CardWords said = io::card_words(r, io::words_for(r));
  return viz::bench_card(r, {.title = said.title,
                             .tank = said.tank,
                             .verdict = said.verdict,
                             .todo = said.todo,
                             .steps = said.steps,
                             .meter = said.meter,
                             .thickness = said.thickness,
                             .cautions = said.cautions});
}

const std::filesystem::path shipped = THINSPOT_SOURCE_DIR "/cases";

/// How often a tag with this letter is drawn.
long tags(const std::string& svg, const std::string& letter) {
  const auto texts = drawn_texts(svg);
  return std::count_if(texts.begin(), texts.end(), [&](const DrawnText& t) {
    return t.bold && t.text == letter;
  });
}

void check_card(const std::string& svg) {
  check_sheet(svg, 148, 210);
  for (const DrawnText& t : drawn_texts(svg)) {
    INFO(t.text);
    CHECK(t.size >= kSevenPoints);
  }
}

/// Every face once, and the key with all of them.
void check_tags(const std::string& svg, const solver::PartResult& part) {
  for (std::size_t f = 0; f < part.faces.size(); ++f) {
    const std::string letter = solver::face_letter(f);
    INFO(letter << " " << part.faces[f].name);
    CHECK(tags(svg, letter) == 1);
    CHECK(says(svg, letter + " " + part.faces[f].name.substr(0, 4)));
  }
}

}  // namespace

TEST_CASE("every set-up makes a sound card with each face tagged once") {
  std::vector<HardCase> all = hard_cases();
  for (const HardCase& one : set_ups()) all.push_back(one);
  for (const HardCase& one : all) {
    DYNAMIC_SECTION(one.name) {
      const solver::Result r = synthetic_result(one.wanted);
      const std::string svg = card(r);
      check_card(svg);
      check_tags(svg, r.parts.front());
    }
  }
}

TEST_CASE("every shipped case has a sound card that says all it has to") {
  for (const auto& entry : std::filesystem::directory_iterator(shipped)) {
    if (entry.path().extension() != ".toml") continue;
    DYNAMIC_SECTION(entry.path().stem().string()) {
      const std::string svg = solved_card({entry.path()});
      check_card(svg);
      CHECK(tags(svg, "A") == 1);
      CHECK_FALSE(says(svg, "see the report"));
      CHECK_FALSE(says(svg, "\u2026"));  // nothing is cut
    }
  }
}

TEST_CASE("of layers the card has all steps, and how the second tank differs") {
  const std::string svg = solved_card(
      {shipped / "token_copper.toml", shipped / "token_nickel.toml"});
  check_card(svg);
  for (const std::string text :
       {"Copper: Plate as planned", "Nickel: Plate as planned",
        "Into the copper tank", "Rinse, into the nickel tank", "3.",
        "In the nickel tank: bar (anode) 40 mm; liquid 110 mm deep."}) {
    INFO(text);
    CHECK(says(svg, text));
  }
}

TEST_CASE("an anode that comes in later is in the sketch") {
  solver::Result r = synthetic_result({.anodes = {"left", "right"}});
  r.steps.push_back(r.steps[0]);
  r.used.steps.push_back(r.used.steps[0]);
  CHECK_FALSE(says(card(r), "The sketch shows step"));
  solver::StepResult& first = r.steps[0];
  first.lifted = r.used.steps[0].lifted = {"left"};
  first.section.solids.erase(first.section.solids.begin() + 1);
  CHECK(says(card(r), "The sketch shows step 2."));
  CHECK(says(card(r), "+ left (anode)"));
}

TEST_CASE("the sketch has the poles and what a ruler measures") {
  const std::string svg = card(synthetic_result());
  // The sheet's face is at 4 mm, the part's at 43.8 mm.
  for (const std::string text :
       {"+ sheet (anode)", "39.8 mm", "100 mm", "2.4 mm", "30 mm", "35 mm",
        "liquid level",
        "Free distances: sheet (anode) 39.8 mm; liquid 100 mm"}) {
    INFO(text);
    CHECK(says(svg, text));
  }
  CHECK(
      says(card(synthetic_result(set_up("every role"))), "\u2212 top (clip)"));
}

TEST_CASE("the sheet has room to write and names the cautions left out") {
  const std::string svg = card(synthetic_result());
  for (const std::string text :
       {"Date", "Volts measured", "Amps measured", "Grams before",
        "Grams after", "Take care (1 more in the report)"}) {
    INFO(text);
    CHECK(says(svg, text));
  }
  CHECK(says(svg, "Never in haste."));
  CHECK_FALSE(says(svg, "Never at night."));
}

TEST_CASE("too much to say is cut, and says so") {
  Synthetic crowd = set_up("ten anodes");
  crowd.title = std::string(300, 'W') + " and a long title besides it";
  const solver::Result r = synthetic_result(crowd);
  viz::CardWords said = words(r);
  said.title = crowd.title;
  said.todo.push_back(said.todo.front());
  for (int k = 0; k < 7; ++k)
    said.steps.push_back(
        "Supply off; flip the part, left and right change places; take the "
        "lead off the left sheet and the right sheet. Set 0.33 A (limit 6 V), "
        "expect 0.71 V (0.62 to 0.85); 12 min.");
  for (std::string& caution : said.cautions) caution += said.steps.back();
  const std::string svg = viz::bench_card(r, said);
  check_card(svg);
  check_tags(svg, r.parts.front());
  CHECK(says(svg, "2."));
  CHECK(says(svg, " more, see the report"));
}

TEST_CASE("eight short steps have room") {
  const solver::Result r = synthetic_result();
  viz::CardWords said = words(r);
  said.steps.assign(8, "Set 0.33 A, expect 0.34 V; 5 min.");
  const std::string svg = viz::bench_card(r, said);
  check_card(svg);
  CHECK(says(svg, "8."));
  CHECK_FALSE(says(svg, "see the report"));
}

TEST_CASE("a block keeps to its height and counts what it leaves out") {
  const std::vector<std::string> items(9, "a line");
  viz::CardBlock block("Steps", 500, {.numbered = true});
  block.add_all(items, 100);
  CHECK(block.height() <= 100);
  viz::Svg svg("t", 540);
  block.draw(svg, 10, 10);
  const std::string text = svg.finish(200, "", "");
  CHECK(says(text, "5."));
  CHECK_FALSE(says(text, "6."));
  CHECK(says(text, "and 4 more, see the report"));
}

TEST_CASE("cautions are cut after a sentence, never within one") {
  const viz::TextStyle style{.size = 9.4};
  for (const solver::CautionRule& rule : solver::caution_rules()) {
    INFO(rule.id);
    const std::string text = viz::whole_sentences(rule.text, style, 504, 2);
    CHECK(rule.text.starts_with(text));
    CHECK(text.back() == '.');
    CHECK(viz::wrapped(text, style, 504, 9).size() <= 2);
  }
  CHECK(viz::whole_sentences("One. Two. Three. Four.", style, 50, 1) ==
        "One. Two.");
}

TEST_CASE("many faces are tagged as far as the key goes") {
  solver::PartResult part;
  part.faces.resize(25);
  for (std::size_t f = 0; f < 25; ++f)
    part.faces[f].name = fmt::format("face {}", f);
  const std::string key = viz::face_key(part);
  CHECK(key.starts_with("A face 0, B face 1, "));
  CHECK(key.ends_with("T face 19 and 5 more"));
}

TEST_CASE("of a turned part the card shows how it stands at first") {
  solver::Result r = synthetic_result();
  const auto tag_left_of = [&](const std::string& a, const std::string& b) {
    double at_a = 0, at_b = 0;
    for (const DrawnText& t : drawn_texts(card(r))) {
      if (t.bold && t.text == a) at_a = t.box.left;
      if (t.bold && t.text == b) at_b = t.box.left;
    }
    return at_a < at_b;
  };
  const auto letter_of = [&](const std::string& face) {
    const auto& faces = r.parts[0].faces;
    for (std::size_t f = 0; f < faces.size(); ++f)
      if (faces[f].name == face) return solver::face_letter(f);
    return std::string();
  };
  CHECK(tag_left_of(letter_of("left"), letter_of("right")));
  r.steps[0].motion.flip = true;
  CHECK(tag_left_of(letter_of("right"), letter_of("left")));
}
