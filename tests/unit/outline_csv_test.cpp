#include "tests/unit/outline_samples.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::mesh;
using tests::read_text;
using tests::refusal;

namespace {

constexpr double pi = std::numbers::pi;

}  // namespace

TEST_CASE("CSV outline: closed by its last piece, whichever way it runs") {
  for (const char* rows : {"0,0\n4,0\n4,3\n0,3\n", "0,0\n4,0\n4,3\n0,3\n0,0\n",
                           "0,0\n0,3\n4,3\n4,0\n", "0,0\n0,0\n4,0\n4,3\n\n"}) {
    CAPTURE(rows);
    const auto drawn = read_text("a.csv", std::string("x_mm,y_mm\n") + rows);
    CHECK_FALSE(drawn.unit_assumed);
    REQUIRE(drawn.outline.loops.size() == 1);
    const double cut_off = std::string(rows).starts_with("0,0\n0,0") ? 0.5 : 1;
    CHECK(area(drawn.outline) == Approx(cut_off * 12e-6).epsilon(1e-12));
    CHECK(drawn.outline.loops[0][0].face == "outline");
  }
}

TEST_CASE("CSV outline: units, scale") {
  const std::string square = "0,0\n2,0\n2,2\n0,2\n";
  const auto side = [&](const std::string& header, const OutlineOptions& o) {
    return perimeter(read_text("a.csv", header + "\n" + square, o).outline) / 4;
  };
  CHECK(side("x_in,y_in", {}) == Approx(0.0508).epsilon(1e-12));
  CHECK(side("X [cm],Y [cm]", {}) == Approx(0.02).epsilon(1e-12));
  CHECK(side("x (mm),y (mm)", {}) == Approx(0.002).epsilon(1e-12));
  CHECK(side("x,y", {}) == Approx(0.002).epsilon(1e-12));
  CHECK(side("x,y", {0.01, 1}) == Approx(0.02).epsilon(1e-12));
  CHECK(side("x_in,y_in", {1e-3, 0.5}) == Approx(0.001).epsilon(1e-12));
  CHECK(read_text("a.csv", "x,y\n" + square).unit_assumed);
  CHECK_FALSE(read_text("a.csv", "x,y\n" + square, {1e-3, 1}).unit_assumed);
}

TEST_CASE("CSV outline: bulges, faces, a hole after a blank line") {
  // A washer: two half circles outside, two inside.
  const auto drawn = read_text("washer.CSV",
                               "\xEF\xBB\xBF# washer\r\n"
                               "x_mm;y_mm;bulge;face\r\n"
                               "-5;0;1;\"rim; lower\"\r\n5;0;1;rim\r\n"
                               ";;;\r\n"
                               "-2;0;1;\r\n2;0;1;\r\n");
  REQUIRE(drawn.outline.loops.size() == 2);
  CHECK(area(drawn.outline) == Approx(pi * 21e-6).epsilon(1e-12));
  CHECK(perimeter(drawn.outline) == Approx(pi * 14e-3).epsilon(1e-12));
  CHECK(drawn.outline.loops[0][0].face == "rim; lower");
  CHECK(drawn.outline.loops[1][0].face == "hole");
  CHECK(drawn.outline.loops[1][0].bulge < 0);
  // Three quarters of a circle and its two radii, told in one row.
  const auto pie = read_text(
      "pie.csv", fmt::format("x_mm\ty_mm\tbulge\n1\t0\t{}\n0\t-1\t\n0\t0\t\n",
                             std::tan(3 * pi / 8)));
  CHECK(area(pie.outline) == Approx(0.75e-6 * pi).epsilon(1e-12));
  for (const Curve& c : pie.outline.loops[0]) CHECK(std::abs(c.bulge) <= 1);
}

TEST_CASE("CSV outline: a repeated header starts a loop; solids in holes") {
  std::string text;
  for (double r : {8, 6, 4, 2, 12}) {
    text += "x_mm,y_mm\n";
    for (int k = 0; k < 4; ++k)
      text += fmt::format("{},{}\n", k % 3 == 0 ? -r : r, k < 2 ? -r : r);
  }
  const auto drawn = read_text("nested.csv", text);
  CHECK(drawn.outline.loops.size() == 5);
  CHECK(area(drawn.outline) ==
        Approx(4e-6 * (144 - 64 + 36 - 16 + 4)).epsilon(1e-12));
}

TEST_CASE("CSV outline: one line says what is wrong and where") {
  const auto said = [](const std::string& text) {
    return refusal("a.csv", text);
  };
  const std::string head = "x_mm,y_mm\n";
  using Catch::Contains;
  CHECK_THAT(said(""), Contains("is empty"));
  CHECK_THAT(said("# only this\n\n"), Contains("is empty"));
  CHECK_THAT(said("1,2\n3,4\n"), Contains("line 1: holds numbers"));
  CHECK_THAT(said("x_mm,z_mm\n"), Contains("\"z_mm\" is not a column"));
  CHECK_THAT(said("x_mm,face\n"), Contains("no column for y"));
  CHECK_THAT(said("x_mm,y_in\n"), Contains("different units"));
  CHECK_THAT(said("x_furlong,y_furlong\n"),
             Contains("\"furlong\"") && Contains("one of mm, cm"));
  CHECK_THAT(said("x_mm,x_mm,y_mm\n"), Contains("twice"));
  CHECK_THAT(said(head), Contains("no points"));
  CHECK_THAT(said(head + "1,2\n\n"), Contains("a loop of one point"));
  CHECK_THAT(said(head + "1,2\n3,four\n"),
             Contains("line 3: \"four\" is not a number for y"));
  CHECK_THAT(said(head + "1\n"), Contains("line 2: \"\" is not a number"));
  CHECK_THAT(said(head + "nan,0\n"), Contains("\"nan\" is not a number"));
  CHECK_THAT(said(head + "1e999,0\n"), Contains("is not a number"));
  CHECK_THAT(
      said(head + "1,5,2,5\n"),
      Contains("4 cells where the header has 2") && Contains("decimal point"));
  CHECK_THAT(said("x_mm;y_mm\n1,5;2\n"),
             Contains("decimal comma") && Contains("1.5"));
  CHECK_THAT(said(head + "0,0\n4,0\n0,0\n4,0\n"), Contains("is not closed"));
  CHECK_THAT(said(head + "0,0\n1,1\n2,2\n"), Contains("encloses no area"));
  CHECK_THAT(said(head + "0,0\n4,3\n4,0\n0,3\n"),
             Contains("crosses or touches itself at (2, 1.5) mm"));
  CHECK_THAT(said(head + "0,0\n4,0\n4,4\n2,0\n0,4\n"), Contains("(2, 0) mm"));
  // Through one corner twice.
  CHECK_THAT(said(head + "0,0\n2,2\n4,0\n4,4\n2,2\n0,4\n"),
             Contains("4 pieces that meet at (2, 2) mm"));
}

TEST_CASE("CSV outline: 5,000 pieces are read, more are too many") {
  const auto ring = [](int n) {
    std::string text = "x_mm,y_mm\n";
    for (int k = 0; k < n; ++k)
      text += fmt::format("{},{}\n", 10 * std::cos(2 * pi * k / n),
                          10 * std::sin(2 * pi * k / n));
    return text;
  };
  const auto drawn = read_text("a.csv", ring(kMostPieces));
  CHECK(drawn.outline.loops[0].size() == kMostPieces);
  // A regular polygon of n corners: n r^2 sin(2 pi/n)/2.
  CHECK(area(drawn.outline) ==
        Approx(0.5 * kMostPieces * 1e-4 * std::sin(2 * pi / kMostPieces))
            .epsilon(1e-10));
  CHECK_THAT(refusal("a.csv", ring(kMostPieces + 1)),
             Catch::Contains("more than 5000 pieces"));
}

TEST_CASE("CSV outline: control characters of UTF-8 are in no name") {
  const std::string bell = "\xC2\x91";
  CHECK(read_text("a.csv", "x_mm,y_mm,face\n0,0,a" + bell +
                               "b\n4,0,\xC3\xA9\n0,3,\x91\n")
            .outline.loops[0][0]
            .face == "ab");
  CHECK_THAT(refusal("a.csv", "x_mm,y" + bell + "\n"),
             Catch::Contains("line 1: \"y\" is not a column's name"));
}

TEST_CASE("CSV outline: specks far apart are no outline") {
  CHECK_THAT(refusal("a.csv",
                     "x_mm,y_mm,bulge\n0,0,1\n1e-6,0,1\n\n"
                     "9,9,1\n9.000001,9,1\n"),
             Catch::Contains("holds no outline"));
}

TEST_CASE("CSV outline: a bulge of next to nothing is none") {
  const auto drawn =
      read_text("a.csv", "x_mm,y_mm,bulge\n0,0,2e-312\n4,0,-1e-10\n0,3,\n");
  CHECK(area(drawn.outline) == Approx(6e-6).epsilon(1e-12));
}

TEST_CASE("CSV outline: far from its origin as far as rounding allows") {
  const auto square = [](const std::string& x) {
    return "x_mm,y_mm\n" + x + "0,0\n" + x + "9,0\n" + x + "9,9\n" + x +
           "0,9\n";
  };
  CHECK(area(read_text("a.csv", square("100000")).outline) ==
        Approx(81e-6).epsilon(2e-4));
  CHECK_THAT(refusal("a.csv", square("3000000000")),
             Catch::Contains("so far from its origin, 3e+10 mm"));
}
