#include "io/cli/progress_line.hpp"
#include "io/cli/time_left.hpp"
#include "io/cli/wrap.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <string>

using namespace thinspot;
using io::cli::progress_line;

namespace {

const solver::Report kAngle{0.443, {}, {"", "angle", 5, 16}};
const solver::Report kLayer{
    0.999, {"", "layer", 2, 3}, {"mesh and currents", "step", 1, 2}};

std::string without_colour(std::string line) {
  for (const std::string code : {"\x1b[36m", "\x1b[0m"}) {
    const std::size_t at = line.find(code);
    if (at != std::string::npos) line.erase(at, code.size());
  }
  return line;
}

}  // namespace

TEST_CASE("the line says how far, what and how long yet") {
  CHECK(progress_line(kAngle, 119, 80, false) ==
        "[#######.........]  44 %  angle 5 of 16, about 2 min left");
  CHECK(progress_line(kAngle, std::nullopt, 80, false) ==
        "[#######.........]  44 %  angle 5 of 16");
  CHECK(progress_line({0, {}, {"error bars"}}, std::nullopt, 50, false) ==
        "[..........]   0 %  error bars");
  CHECK(progress_line({1, {}, {"pictures"}}, 0, 100, false) ==
        "[########################] 100 %  pictures, a few seconds left");
  CHECK(progress_line({0.5, {}, {"growing", "", 7, 20}}, std::nullopt, 30,
                      false) == " 50 %  growing, 7 of 20");
  // Not done before it is done.
  CHECK(progress_line(kLayer, std::nullopt, 120, false) ==
        "[#######################.]  99 %  "
        "layer 2 of 3, mesh and currents, step 1 of 2");
  // Out of bounds it is at the bound.
  CHECK(progress_line({1.5, {}, {}}, std::nullopt, 20, false) == "100 %");
  CHECK(progress_line({-1, {}, {}}, std::nullopt, 20, false) == "  0 %");
}

TEST_CASE("a narrow terminal gets less, what matters most last") {
  CHECK(progress_line(kLayer, 119, 80, false) ==
        "[###############.]  99 %  layer 2 of 3, mesh and currents.., about 2 "
        "min left");
  CHECK(progress_line(kLayer, 119, 48, false) ==
        "[#########.]  99 %  layer 2 of 3, mesh and cu..");
  CHECK(progress_line(kLayer, 119, 39, false) ==
        " 99 %  layer 2 of.., about 2 min left");
  CHECK(progress_line(kAngle, 119, 36, false) == " 44 %  angle 5 of 16");
  CHECK(progress_line(kAngle, 119, 20, false) == " 44 %  angle 5 of..");
  CHECK(progress_line(kAngle, 119, 11, false) == " 44 %");
  CHECK(progress_line(kAngle, 119, 10, false) == " 44 %");
  CHECK(progress_line(kAngle, 119, 6, false) == " 44 %");
  CHECK(progress_line(kAngle, 119, 5, false).empty());
  CHECK(progress_line(kAngle, 119, 0, false).empty());
}

TEST_CASE("no line reaches the last column, whatever it says") {
  const solver::Report foreign{
      0.5, {"Schichtdicke über alles größer"}, {"läuft", "Änderung", 12, 345}};
  for (const solver::Report& report : {kAngle, kLayer, foreign})
    for (int width = 10; width <= 200; ++width)
      for (const std::optional<double> left :
           {std::optional<double>(), std::optional(3.), std::optional(5e4)}) {
        const std::string line = progress_line(report, left, width, false);
        CAPTURE(width, line);
        CHECK(io::cli::columns(line) < static_cast<std::size_t>(width));
        CHECK(line.find(" %") != std::string::npos);
        // Never a part of a character.
        CHECK((line.empty() || static_cast<unsigned char>(line.back()) < 0x80));
        // Colour changes nothing else.
        const std::string coloured = progress_line(report, left, width, true);
        CHECK(without_colour(coloured) == line);
        CHECK((coloured != line) == (width > 40));
      }
}

TEST_CASE("time left in words no more exact than it is") {
  using io::cli::time_left_words;
  CHECK(time_left_words(0) == "a few seconds left");
  CHECK(time_left_words(7) == "a few seconds left");
  CHECK(time_left_words(8) == "about 10 s left");
  CHECK(time_left_words(43) == "about 45 s left");
  CHECK(time_left_words(54.9) == "about 55 s left");
  CHECK(time_left_words(55) == "about 1 min left");
  CHECK(time_left_words(119) == "about 2 min left");
  CHECK(time_left_words(3560) == "about 59 min left");
  CHECK(time_left_words(3590) == "about 1 h left");
  CHECK(time_left_words(4900) == "about 1 h 20 min left");
  CHECK(time_left_words(1e5) == "about 27 h 50 min left");
}

TEST_CASE("time left is told once there is something to go by") {
  io::cli::TimeLeft left;
  CHECK_FALSE(left.after(0, 0.5));
  CHECK_FALSE(left.after(0.04, 0.9));
  CHECK_FALSE(left.after(0, 5));
  CHECK(*left.after(0.05, 5) == Approx(95));
  io::cli::TimeLeft slow;
  CHECK(*slow.after(0.01, 1) == Approx(99));
  io::cli::TimeLeft quick;
  CHECK(*quick.after(0.5, 0.01) == Approx(0.01));
}

TEST_CASE("time left at an even pace is what it then takes") {
  io::cli::TimeLeft left;
  for (int k = 1; k <= 100; ++k)
    if (const auto told = left.after(k / 100., k * 0.6)) {
      CAPTURE(k);
      CHECK(*told == Approx(60 - 0.6 * k).margin(1e-9));
    } else {
      CHECK(k < 2);
    }
}

TEST_CASE("time left follows a change of pace, but does not jump") {
  // Half of it at a pace of 60 s for all, then four times as fast.
  io::cli::TimeLeft left;
  double before = 0, share = 0, t = 0;
  for (; share < 0.5; t += 0.1, share += 0.1 / 60)
    before = left.after(share, t).value_or(before);
  CHECK(before == Approx(30).margin(0.5));
  for (; share < 0.95; t += 0.1, share += 0.1 / 15) {
    const double told = *left.after(share, t);
    CAPTURE(t, share, told);
    CHECK(told < before);
    CHECK(before - told < 0.1 * before + 0.1);
    before = told;
  }
  // True: 0.75 s. What was slow at first still counts.
  CHECK(before > 0.75);
  CHECK(before < 7);
  // Standing still it does not fall to nothing.
  CHECK(*left.after(share, t + 100) > 1);
}
