// What --vary is written as: ranges, lists, words, and what is wrong.
#include "io/sweep_axis.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace thinspot;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;
using Texts = std::vector<std::string>;
using Numbers = std::vector<double>;

TEST_CASE("a range with a number of values", "[sweep]") {
  const io::SweepAxis axis = io::sweep_axis("anode.sheet.gap=10 mm..40 mm:31");
  CHECK(axis.key == "anode.sheet.gap");
  CHECK(axis.unit == "mm");
  CHECK_FALSE(axis.anywhere);
  CHECK_FALSE(axis.by_factor);
  CHECK_FALSE(axis.has_words());
  REQUIRE(axis.numbers.size() == 31);
  for (std::size_t k = 0; k < 31; ++k) {
    CHECK(axis.numbers[k] == 10.0 + static_cast<double>(k));
    CHECK(axis.texts[k] == fmt::format("{} mm", 10 + k));
  }
}

TEST_CASE("values of a range are without the noise of arithmetic", "[sweep]") {
  CHECK(io::sweep_axis("k=0.1 A..0.7 A:7").texts ==
        Texts{"0.1 A", "0.2 A", "0.3 A", "0.4 A", "0.5 A", "0.6 A", "0.7 A"});
  CHECK(io::sweep_axis("k=-0.2 V..0.1 V:4").texts ==
        Texts{"-0.2 V", "-0.1 V", "0 V", "0.1 V"});
  CHECK(io::sweep_axis("k=0..1:4").texts ==
        Texts{"0", "0.33333", "0.66667", "1"});
}

TEST_CASE("units of a range may stand behind either end or none", "[sweep]") {
  for (const char* text : {"k=10 mm..12 mm:3", "k=10..12 mm:3", "k=10mm..12:3",
                           "k = 10 mm .. 12 mm : 3", "  k=10 mm..12 mm: 3 "}) {
    CAPTURE(text);
    const io::SweepAxis axis = io::sweep_axis(text);
    CHECK(axis.key == "k");
    CHECK(axis.texts == Texts{"10 mm", "11 mm", "12 mm"});
  }
  CHECK(io::sweep_axis("k=90 %..98 %:3").texts ==
        Texts{"90 %", "94 %", "98 %"});
  CHECK(io::sweep_axis("k=.5..1.5:2").texts == Texts{"0.5", "1.5"});
}

TEST_CASE("a range by factor", "[sweep]") {
  const io::SweepAxis axis = io::sweep_axis("k=0.1 A..10 A:21 log");
  CHECK(axis.by_factor);
  REQUIRE(axis.numbers.size() == 21);
  CHECK(axis.numbers.front() == 0.1);
  CHECK(axis.numbers.back() == 10);
  // Seven digits: half a unit of the seventh either way, twice.
  const double factor = std::pow(100, 1 / 20.0);
  for (std::size_t k = 1; k < 21; ++k)
    CHECK_THAT(axis.numbers[k] / axis.numbers[k - 1], WithinRel(factor, 1e-6));
  CHECK(axis.texts[10] == "1 A");
  CHECK(io::sweep_axis("k=1 A..100 A:3 log").texts ==
        Texts{"1 A", "10 A", "100 A"});
}

TEST_CASE("a range without a number of values is all between", "[sweep]") {
  const io::SweepAxis axis = io::sweep_axis("k=10 mm..40 mm");
  CHECK(axis.anywhere);
  CHECK(axis.texts == Texts{"10 mm", "40 mm"});
  CHECK(axis.number_at(0.5) == 25);
  CHECK(axis.text_of(axis.number_at(0.25)) == "17.5 mm");
  const io::SweepAxis by_factor = io::sweep_axis("k=0.1 A..10 A log");
  CHECK(by_factor.anywhere);
  CHECK(by_factor.number_at(0.5) == 1);
}

TEST_CASE("no value of a range is beyond its ends", "[sweep]") {
  for (const char* text :
       {"k=0.12345649..1.1", "k=0.12345649..1.1 log", "k=1e-70..2e-70",
        "k=-1.00000049..-0.1", "k=0.100000049..0.2000000049 log"}) {
    CAPTURE(text);
    const io::SweepAxis axis = io::sweep_axis(text);
    double before = axis.numbers.front();
    for (int k = 0; k <= 1000; ++k) {
      const double value = axis.number_at(k / 1000.0);
      CHECK(value >= before);
      CHECK(value <= axis.numbers.back());
      before = value;
    }
    CHECK(axis.number_at(0.5) > axis.numbers.front());
    CHECK(axis.number_at(0.5) < axis.numbers.back());
  }
}

TEST_CASE("a list of numbers", "[sweep]") {
  const io::SweepAxis axis = io::sweep_axis("supply.current=0.2,0.4,0.80 A");
  CHECK(axis.unit == "A");
  CHECK(axis.numbers == Numbers{0.2, 0.4, 0.8});
  CHECK(axis.texts == Texts{"0.2 A", "0.4 A", "0.80 A"});
  CHECK(io::sweep_axis("k=2 A, 1 A,4 A").numbers == Numbers{2, 1, 4});
  CHECK(io::sweep_axis("k=-0.1,+0.2 V").numbers == Numbers{-0.1, 0.2});
  CHECK(io::sweep_axis("k=3 mm").numbers == Numbers{3});
  CHECK(io::sweep_axis("k=1,2").unit.empty());
  CHECK(io::sweep_axis("k=90 %,95 %").texts == Texts{"90 %", "95 %"});
  // value_at: each has the same share.
  CHECK(axis.value_at(0) == 0);
  CHECK(axis.value_at(0.33) == 0);
  CHECK(axis.value_at(0.34) == 1);
  CHECK(axis.value_at(0.999) == 2);
  CHECK(axis.value_at(1) == 2);
}

TEST_CASE("what is more than a number and its unit stays words", "[sweep]") {
  const auto words = [](const char* text, const Texts& wanted) {
    CAPTURE(text);
    const io::SweepAxis axis = io::sweep_axis(text);
    CHECK(axis.has_words());
    CHECK(axis.texts == wanted);
    CHECK(axis.unit.empty());
  };
  words("part.shape=coin, plate", {"coin", "plate"});
  words("k=2 A +- 0.1 A,3 A +- 0.1 A", {"2 A +- 0.1 A", "3 A +- 0.1 A"});
  words("k=2 A +/- 1 %,3 A", {"2 A +/- 1 %", "3 A"});
  words("k=2 A \u00B1 1 %,3 A \u00B1 1 %",
        {"2 A \u00B1 1 %", "3 A \u00B1 1 %"});
  words("k=1 A..2 A,3 A..4 A", {"1 A..2 A", "3 A..4 A"});
  words("k=coin,3 mm", {"coin", "3 mm"});
  words("k=\"a, b\",'c, d'", {"\"a, b\"", "'c, d'"});
  words("k=\"a\\\", b\",c", {"\"a\\\", b\"", "c"});
  words("k=\"10 mm..40 mm\"", {"\"10 mm..40 mm\""});
  words("k=[\"45 mm\",\"50 mm\"],[\"50 mm\",\"50 mm\"]",
        {"[\"45 mm\",\"50 mm\"]", "[\"50 mm\",\"50 mm\"]"});
  words("k={a = 1, b = 2},{a = 2}", {"{a = 1, b = 2}", "{a = 2}"});
  words("k=information,nano", {"information", "nano"});
}

TEST_CASE("each wrong form has its own words", "[sweep]") {
  const auto wrong = [](const std::string& text, const char* words) {
    CAPTURE(text);
    try {
      io::sweep_axis(text);
      FAIL("taken");
    } catch (const InputError& error) {
      REQUIRE(error.problems().size() == 1);
      const Problem& p = error.problems().front();
      CHECK_THAT(p.wrong, Contains(words));
      CHECK_FALSE(p.mend.empty());
      CHECK_FALSE(p.key.empty());
      for (const std::string& line : {p.key, p.wrong, p.mend})
        CHECK(line.find('\n') == std::string::npos);
    }
  };
  wrong("", "no equals sign");
  wrong("anode.sheet.gap", "no equals sign");
  wrong("=3 mm", "too little");
  wrong("k=", "too little");
  wrong(" = ", "too little");
  wrong("k=..", "no range");
  wrong("k=1 mm..", "no range");
  wrong("k=a..b:3", "no range");
  wrong("k=1..2..3", "no range");
  wrong("k=nan..3", "no range");
  wrong("k=0..inf", "no range");
  wrong("k=0..1e999:3", "no range");
  wrong("k=1 mm..2 cm:3", "two units");
  wrong("k=1 mm..2 V", "two units");
  wrong("k=4 mm..1 mm:3", "does not rise");
  wrong("k=4 mm..4 mm:3", "does not rise");
  wrong("k=0 A..1 A:3 log", "by factor");
  wrong("k=-1 A..1 A:3 log", "by factor");
  for (const char* count : {"1", "0", "-3", "100001", "99999999999999999999",
                            "three", "", "3.5", "3 4", "+3"})
    wrong(fmt::format("k=1 mm..2 mm:{}", count), "no number of values");
  wrong("k=1,,2", "nothing between two commas");
  wrong("k=,1", "nothing between two commas");
  wrong("k=1,", "nothing between two commas");
  wrong("k=1 A,2 V", "is in \"A\" and in \"V\"");
  wrong("k=1 A,2", "is in \"A\" and in \"\"");
  wrong("k=1,2,1", "twice");
  wrong("k=1,1.0", "twice");
  wrong("k=0 V,-0 V", "twice");
  wrong("k=coin,coin", "twice");
  wrong("k=nan,1", "\"nan\" is no number");
  wrong("k=inf A", "is no number");
  wrong("k=-inf", "is no number");
  wrong("k=1e999 A,2 A", "is no number");
  wrong("k=" + std::string(400, '9') + "A", "is no number");
  wrong("k=-1e308..1e308:3", "too wide");
  wrong("k=1e-300..1e300:3 log", "too wide");
  wrong("k=1e15..1000000000000001:31", "too close");
  wrong("k=1 A..1.000001 A:31 log", "too close");
  wrong("k=a\nb", "no plain text");
  wrong("k=1 A,\x01 A", "no plain text");
  wrong("k\x1b[2J=1", "no plain text");
  wrong("k=\xff\xfe", "no plain text");
  wrong("k=" + std::string(100'000, 'x'), "too long");
}

TEST_CASE("as many values as there may be, and no more", "[sweep]") {
  const io::SweepAxis all = io::sweep_axis("k=1 mm..2 mm:100000");
  REQUIRE(all.texts.size() == 100'000);
  for (std::size_t k = 1; k < all.numbers.size(); ++k)
    if (!(all.numbers[k - 1] < all.numbers[k])) FAIL(k);
  CHECK(all.numbers.back() == 2);
  std::string list = "k=0";
  for (int k = 1; list.size() < 99'000; ++k) list += fmt::format(",{}", k);
  CHECK(io::sweep_axis(list).numbers.size() > 18'000);
  // A list of 100,001 is longer than what is read at all.
  std::string longer = "k=0";
  for (int k = 1; k <= 100'000; ++k) longer += fmt::format(",{}", k);
  CHECK_THROWS_WITH(io::sweep_axis(longer), Contains("too long"));
}
