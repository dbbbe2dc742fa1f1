#include "io/set_up_words.hpp"
#include "io/copies.hpp"
#include "io/summary_json.hpp"
#include "io/tables_csv.hpp"
#include "io/vtk_data.hpp"
#include "io/words.hpp"
#include "tests/unit/rack_result.hpp"
#include "tests/unit/sample_result.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <vtkAbstractArray.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataReader.h>

#include <sstream>

using namespace thinspot;
using namespace thinspot::io;
using Catch::Matchers::Contains;
using thinspot::tests::rack_result;
using thinspot::tests::sample_result;

TEST_CASE("nothing is said of what is not there", "[set_up]") {
  const Words w = words_for(sample_result());
  CHECK(w.copies.empty());
  CHECK(w.shares.empty());
  CHECK(w.bare.empty());
  CHECK(w.floating.empty());
  CHECK_THAT(w.thin, !Contains("on part"));
}

TEST_CASE("a rack: which copy is thinnest and how far they differ",
          "[set_up]") {
  solver::Result r = rack_result();
  const Words w = words_for(r);
  CHECK_THAT(w.verdict, Contains("that counts of all 3 copies, "));
  // The third copy has 0.8 of the first's 12 µm.
  CHECK(w.thin ==
        "Thinnest: 9.6 µm (8.6 to 10.6) on part 3, middle of the "
        "left face.");
  CHECK_THAT(w.heavy, Contains("28 µm (25 to 31) on part 1"));
  // (17.6 - 14.08) / 15.84 = 22 %.
  CHECK(w.copies ==
        "Of 3 copies part 3 comes out thinnest (mean 14.1 µm) and part 1 "
        "heaviest (17.6 µm), 22 % apart; 9.6 to 28 µm over all of them.");
  r.rack->mean_thickness = {15.8e-6, 15.84e-6, 15.9e-6};
  CHECK_THAT(words_for(r).copies, Contains("alike, their means within 0.6 %"));
  r.target.reset();
  CHECK_THAT(words_for(r).verdict,
             Contains("Thinnest spot of all 3 copies 9.6 µm"));
}

TEST_CASE("sums over the copies", "[set_up]") {
  const solver::Result r = rack_result();
  CHECK(thinnest_spot_on(r) == 2);
  CHECK(heaviest_spot_on(r) == 0);
  CHECK(whole_area(r) == Approx(48e-4));
  CHECK(whole_current(r) == Approx(0.96));
  CHECK(whole_mass(r) == Approx(3 * 0.253e-3));
  CHECK(mean_thickness(r).value == Approx(17.6e-6 * 0.9));
}

TEST_CASE("bare marks are told with reason and length", "[set_up]") {
  const auto lines = bare_words(rack_result());
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] ==
        "Bare on each copy: 2.2 mm of the left face and 1.2 mm of the upper "
        "rim, under the clip top.");
  CHECK(lines[1] ==
        "Bare on part 2: 3 mm of the left face, out of the liquid.");
  // One part alone: its name says nothing.
  solver::Result one = sample_result();
  one.parts[0].bare = {{"left", 0, 0.001, "under stop-off lacquer"},
                       {"L1", 0.001, 0.002, "under stop-off lacquer"},
                       {"left", 0.002, 0.003, "under stop-off lacquer"}};
  CHECK(bare_words(one) ==
        std::vector<std::string>{"Bare: 2 mm of the left face and 1 mm of the "
                                 "face \"L1\", under stop-off lacquer."});
}

TEST_CASE("clips, thieves and wires: their share of the current", "[set_up]") {
  solver::Result r = rack_result();
  // 3 x 0.02 A, 0.12 A and 0.01 A of 1.2 A.
  CHECK(shares_words(r) ==
        "Of 1.2 A in all, 3 clips take 0.06 A (5 %), thief ring takes 0.12 A "
        "(10 %) and wires take 0.01 A (0.83 %).");
  r.clips.resize(1);
  r.thieves.clear();
  CHECK_THAT(shares_words(r), Contains("clip top 1 takes 0.02 A (1.7 %)"));
}

TEST_CASE("unconnected metal plates and dissolves", "[set_up]") {
  solver::Result r = rack_result();
  const auto lines = floating_words(r);
  REQUIRE(lines.size() == 1);
  CHECK_THAT(lines[0], Contains("old sheet") && Contains("0.034 A") &&
                           Contains("plates at up to 0.31 A/dm²") &&
                           Contains("dissolves at up to 0.42 A/dm²") &&
                           Contains("copper"));
  r.floating[0].through = 1e-4;
  CHECK_THAT(floating_words(r)[0], Contains("hardly any"));
}

TEST_CASE("the summary holds every copy and everything else", "[set_up]") {
  const solver::Result r = rack_result();
  const auto s = nlohmann::json::parse(summary_json(r, words_for(r)));
  REQUIRE(s["parts"].size() == 3);
  CHECK(s["part"] == s["parts"][0]);
  CHECK(s["parts"][2]["name"] == "part 3");
  CHECK(s["parts"][2]["thickness_um"]["min"] == 9.6);
  const auto& bare = s["parts"][1]["bare"][0];
  CHECK(bare["face"] == "left");
  CHECK(bare["from_mm"] == 28.0);
  CHECK(bare["to_mm"] == 30.2);
  CHECK(bare["length_mm"] == 2.2);
  CHECK(bare["why"] == "under the clip top 2");
  CHECK(s["rack"]["copies"] == 3);
  CHECK(s["rack"]["mean_thickness_um"]["min"] == 14.08);
  CHECK(s["rack"]["thickness_um"]["max"] == 28.0);
  CHECK(s["rack"]["thinnest"] == "part 3");
  CHECK(s["rack"]["heaviest"] == "part 1");
  CHECK(s["clips"].size() == 3);
  CHECK(s["thieves"][0]["share_of_current"] == 0.1);
  CHECK(s["thieves"][0]["mean_A_dm2"] == 2.4);
  CHECK(s["floating"][0]["dissolving_A_dm2"] == 0.42);
  CHECK(s["floating"][0]["potential_V"] == 0.12);
  CHECK(s["words"]["bare"].size() == 2);
}

TEST_CASE("table and surface data tell the copies apart", "[set_up]") {
  const solver::Result r = rack_result();
  std::istringstream csv(surface_csv(r));
  std::vector<std::string> lines;
  for (std::string line; std::getline(csv, line);) lines.push_back(line);
  REQUIRE(lines.size() == 13);
  CHECK(lines[1].starts_with("part 1,0,"));
  CHECK(lines[12].starts_with("part 3,0,"));

  vtkNew<vtkXMLPolyDataReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(surface_vtp(r));
  reader->Update();
  vtkPolyData* surface = reader->GetOutput();
  REQUIRE(surface->GetNumberOfPoints() == 12);
  CHECK(surface->GetNumberOfLines() == 3);
  vtkDataArray* part = surface->GetPointData()->GetArray("part");
  REQUIRE(part);
  CHECK(part->GetComponent(4, 0) == 1);
  vtkAbstractArray* names =
      surface->GetFieldData()->GetAbstractArray("part_names");
  REQUIRE(names);
  CHECK(names->GetVariantValue(2).ToString() == "part 3");
}
