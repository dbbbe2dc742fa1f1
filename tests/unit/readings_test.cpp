#include "io/readings_file.hpp"

#include "io/case_file.hpp"
#include "io/experiments.hpp"
#include "mesh/errors.hpp"
#include "tests/scratch.hpp"
#include "tests/unit/case_text.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace thinspot;
using Catch::Matchers::Contains;
using solver::Reading;
using tests::Scratch;
using In = Reading::In;
using Of = Reading::Of;
using Where = Reading::Where;

namespace {

constexpr const char* kNames = "what,reading,plus_minus,at,method,with,note\n";

std::vector<Reading> read(const std::string& lines) {
  return io::read_readings_text(kNames + lines, "r.csv");
}

Reading one(const std::string& line) {
  const auto all = read(line + "\n");
  REQUIRE(all.size() == 1);
  return all.front();
}

/// Every problem in one line each.
std::string problems(const std::string& text) {
  try {
    io::read_readings_text(text, "r.csv");
  } catch (const InputError& error) {
    std::string all;
    for (const Problem& p : error.problems())
      all += p.place + ": " + p.key + ": " + p.wrong + "; " + p.mend + "\n";
    return all;
  }
  return "";
}

std::string problem(const std::string& line) { return problems(kNames + line); }

}  // namespace

TEST_CASE("readings of each kind") {
  SECTION("a voltage at a current") {
    const Reading r = one("voltage,1.32 V,,0.2 A");
    CHECK(r.of == Of::voltage);
    CHECK(r.in == In::tank);
    CHECK(r.value == Approx(1.32));
    CHECK(r.at_current == Approx(0.2));
    CHECK(r.plus_minus == Approx(0.0132));
    CHECK_FALSE(r.plus_minus_source.empty());
    CHECK(r.line == 2);
  }
  SECTION("a voltage of a step") {
    CHECK(one("voltage,1.32 V,,step 2").step == 1u);
  }
  SECTION("said in the reading, beside it, or in per cent") {
    CHECK(one("voltage,0.4 V +- 5 mV").plus_minus == Approx(0.005));
    CHECK(one("voltage,0.4 V,5 mV").plus_minus == Approx(0.005));
    CHECK(one("voltage,0.4 V,5 %").plus_minus == Approx(0.02));
    CHECK(one("voltage,0.4 V,5 mV").plus_minus_source.empty());
    CHECK(one("voltage,0.4 V").plus_minus == Approx(0.005));
  }
  SECTION("a mass by a scale of 0.01 g") {
    const Reading r = one("mass,0.15 g,,part 3");
    CHECK(r.value == Approx(1.5e-4));
    CHECK(r.plus_minus == Approx(1e-5));
    CHECK(r.copy == 2u);
  }
  SECTION("thickness by the usual methods") {
    CHECK(one("thickness,12 um,,thinnest,X-ray").plus_minus == Approx(1.2e-6));
    CHECK(one("thickness,12 um,,thinnest,section").plus_minus ==
          Approx(0.8e-6));
    CHECK(one("thickness,40 um,,heaviest,section").plus_minus == Approx(2e-6));
    CHECK(one("thickness,12 um,,mean,micrometer").plus_minus == Approx(2e-6));
    CHECK(one("thickness,12 um,3 um,mean,by eye").method == "by eye");
  }
  SECTION("places") {
    const Reading r = one("thickness,12 um,,\"45 mm, 6.5 cm\",X-ray");
    CHECK(r.where == Where::point);
    CHECK(r.point.x() == Approx(0.045));
    CHECK(r.point.y() == Approx(0.065));
    const Reading probe = one("thickness,12 um,,\"left face, centre\",X-ray");
    CHECK(probe.where == Where::probe);
    CHECK(probe.at == "left face, centre");
  }
  SECTION("a panel") {
    const Reading r =
        one("panel,7 um,,40 mm,X-ray,current=2 A; duration=5 min");
    CHECK(r.in == In::panel);
    CHECK(r.of == Of::thickness);
    CHECK(r.where == Where::along);
    CHECK(r.distance == Approx(0.04));
    CHECK(r.cell.current == Approx(2));
    CHECK(r.cell.duration == Approx(300));
    CHECK(one("panel,2.1 V").of == Of::voltage);
    CHECK(one("panel,0.2 g").of == Of::mass);
  }
  SECTION("two cathodes") {
    const Reading r = one("two cathodes,0.62 g / 0.155 g,,,,near=2 cm");
    CHECK(r.value == Approx(4));
    CHECK(r.plus_minus == Approx(4 * std::hypot(0.01 / 0.62, 0.01 / 0.155)));
    CHECK(r.cell.near_gap == Approx(0.02));
    CHECK(one("two cathodes,3.9").plus_minus == Approx(0.03 * 3.9));
    CHECK(one("two cathodes,3.9,5 %").plus_minus == Approx(0.05 * 3.9));
  }
  SECTION("what was otherwise, in any order the same") {
    const auto all =
        read("voltage,1 V,,,,a.b=1; c.d=2\nvoltage,1 V,,,,\"c.d=2;a.b=1\"\n");
    CHECK(all[0].with == all[1].with);
    CHECK(all[0].with.size() == 2);
  }
}

TEST_CASE("tables as people write them") {
  CHECK(io::read_readings_text("\xEF\xBB\xBF# a jar\n\nwhat;reading;at\r\n"
                               "voltage;1 V;0.2 A\r\n\r\n",
                               "r.csv")
            .size() == 1);
  CHECK(io::read_readings_text("reading,what\n1 V,voltage,,,\n", "r.csv")
            .size() == 1);
}

TEST_CASE("readings refused, with line and mend") {
  struct Bad {
    std::string line;
    std::vector<std::string> says;
  };
  const Bad bad = GENERATE(values<Bad>({
      {"voltge,1 V", {"r.csv:2", "what", "\"voltage\" meant"}},
      {",1 V", {"what", "left out"}},
      {"voltage,", {"reading", "left out"}},
      {"voltage,1.3", {"reading", "unit"}},
      {"voltage,1.3 A", {"reading"}},
      {"voltage,\"1,3 V\"", {"reading", "1.3 V"}},
      {"voltage,-1 V", {"out of range"}},
      {"voltage,nan V", {"reading"}},
      {"voltage,1 V,-1 mV", {"plus_minus", "out of range"}},
      {"voltage,1 V,0 V", {"plus_minus", "out of range"}},
      {"voltage,1 V +- 1 mV,1 mV", {"said twice"}},
      {"voltage,1 V,,left", {"at"}},
      {"voltage,1 V,,step 0", {"at"}},
      {"current,1 A,,0.2 V", {"no step"}},
      {"mass,0.1 g,,rim", {"no part"}},
      {"mass,100 mm", {"reading"}},
      {"thickness,12 um", {"plus_minus"}},
      {"thickness,12 um,1 um", {"at", "left out"}},
      {"thickness,12 um,,thinnest,Xray", {"method", "\"X-ray\" meant"}},
      {"panel,7 um,,,X-ray", {"at", "near end"}},
      {"panel,7 um,,200 mm,X-ray", {"out of range"}},
      {"panel,7 A,,20 mm,X-ray", {"none that a panel has"}},
      {"panel,7 um,,20 mm,X-ray,near=2 mm", {"no setting", "duration"}},
      {"two cathodes,0 g / 1 g", {"both gain"}},
      {"two cathodes,4,,,,near=130 mm", {"no farther"}},
      {"voltage,1 V,,,,,,,more", {"9 cells under 7 names"}},
      {"voltage,1 V,,\x01", {"plain text"}},
  }));
  CAPTURE(bad.line);
  const std::string found = problem(bad.line);
  for (const std::string& word : bad.says) CHECK_THAT(found, Contains(word));
}

TEST_CASE("tables refused as a whole") {
  CHECK_THAT(problems(""), Contains("holds no readings"));
  CHECK_THAT(problems("what,reading\n"), Contains("holds no readings"));
  CHECK_THAT(problems("what,raeding\nvoltage,1 V\n"),
             Contains("\"reading\" meant"));
  CHECK_THAT(problems("what,what,reading\nvoltage,voltage,1 V\n"),
             Contains("twice"));
  CHECK_THAT(problems("what\nvoltage\n"), Contains("names no column"));
  std::string many = kNames;
  for (int k = 0; k < 1001; ++k) many += "voltage,1 V\n";
  CHECK_THAT(problems(many), Contains("at most 1000"));
  // All of them at once.
  CHECK_THAT(problem("voltage,1\nmass,2\n"),
             Contains("r.csv:2: reading") && Contains("r.csv:3: reading"));
  const Scratch scratch;
  CHECK_THROWS_AS(io::read_readings(scratch / "none.csv"), InputError);
  CHECK_THROWS_AS(io::read_readings(scratch.path()), InputError);
  tests::put(scratch / "huge.csv", std::string(2'000'000, 'a'));
  CHECK_THROWS_AS(io::read_readings(scratch / "huge.csv"), InputError);
}

// Nothing but readings or an InputError comes of any text.
TEST_CASE("any text for readings", "[hostile]") {
  std::mt19937_64 random(7);
  const std::string pieces[] = {
      "voltage", "panel", ",",    "\n",           "\"",      "1 V",  "0.2 A",
      "=",       ";",     "+-",   "nan",          "1e999 V", "\xff", "/",
      "g",       "at",    "mass", "two cathodes", "step "};
  int refused = 0;
  for (int k = 0; k < 3000; ++k) {
    std::string text = random() % 2 == 0 ? kNames : "";
    const auto count = random() % 20;
    for (std::uint64_t n = 0; n < count; ++n)
      text += pieces[random() % std::size(pieces)];
    try {
      for (const Reading& r : io::read_readings_text(text, "r.csv")) {
        CHECK(r.plus_minus > 0);
        CHECK(std::isfinite(r.value));
      }
    } catch (const InputError&) {
      ++refused;
    }
  }
  CHECK(refused > 1000);
}

TEST_CASE("readings sorted by the set-up they were taken in") {
  io::DrawnCase drawn;
  drawn.file = tests::case_folder() / "case.toml";
  drawn.text = tests::sound_case();
  drawn.content = tests::read_text(drawn.text).content;
  const auto sorted = [&](const std::string& lines) {
    return io::experiments_of(drawn, read(lines), "r.csv");
  };
  const auto all = sorted(
      "voltage,1 V,,0.2 A\nvoltage,1 V,,0.2 A,,anode.sheet.gap=20 mm\n"
      "mass,0.1 g\nvoltage,1 V,,0.4 A,,anode.sheet.gap=20 mm\n");
  REQUIRE(all.size() == 2);
  CHECK(all[0].readings.size() == 2);
  CHECK(all[1].readings.size() == 2);
  CHECK(all[0].content.section.solids[1].gap == Approx(0.035));
  CHECK(all[1].content.section.solids[1].gap == Approx(0.02));
  const auto problem_of = [&](const std::string& lines) {
    try {
      sorted(lines);
    } catch (const InputError& error) {
      const Problem& p = error.problems().front();
      return p.place + ": " + p.wrong + "; " + p.mend;
    }
    return std::string();
  };
  CHECK_THAT(problem_of("voltage,1 V,,,,anode.sheet.gp=20 mm\n"),
             Contains("r.csv:2") && Contains("anode.sheet.gap"));
  CHECK_THAT(problem_of("voltage,1 V,,,,anode.sheet.gap=20 A\n"),
             Contains("r.csv:2"));
  CHECK_THAT(problem_of("thickness,9 um,,rim,X-ray\n"),
             Contains("no probe of the case"));
  CHECK_THAT(problem_of("thickness,9 um,,\"45 mm, 80 mm\",X-ray\n"),
             Contains("15 mm away"));
  CHECK(problem_of("thickness,9 um,,\"45 mm, 65 mm\",X-ray\n") == "");
}
