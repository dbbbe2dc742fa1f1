// The colour ramp reads when printed grey and for colour-blind eyes.

#include "viz/palette.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;

namespace {

double distance(const std::array<double, 3>& a,
                const std::array<double, 3>& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

}  // namespace

TEST_CASE("luminance is that of the standard") {
  CHECK(viz::luminance({0, 0, 0}) == Approx(0).margin(1e-12));
  CHECK(viz::luminance({1, 1, 1}) == Approx(1));
  // WCAG 2.1: the primaries have the weights 0.2126, 0.7152, 0.0722.
  CHECK(viz::luminance({1, 0, 0}) == Approx(0.2126));
  CHECK(viz::luminance({0, 1, 0}) == Approx(0.7152));
  CHECK(viz::luminance({0, 0, 1}) == Approx(0.0722));
}

TEST_CASE("L*a*b* of known colours") {
  // CIE 15: white of D65 is (100, 0, 0); sRGB red is (53.24, 80.09, 67.20)
  // after Lindbloom's calculator.
  CHECK(distance(viz::lab({1, 1, 1}), {100, 0, 0}) < 0.05);
  CHECK(distance(viz::lab({1, 0, 0}), {53.24, 80.09, 67.20}) < 0.1);
}

TEST_CASE("a deuteranope takes greys as they are and red for a yellow") {
  const viz::Rgb grey = viz::as_deuteranope_sees({0.4, 0.4, 0.4});
  CHECK(grey.red == Approx(0.4).margin(1e-3));
  CHECK(grey.green == Approx(0.4).margin(1e-3));
  CHECK(grey.blue == Approx(0.4).margin(1e-3));
  const viz::Rgb red = viz::as_deuteranope_sees({1, 0, 0});
  CHECK(red.red == Approx(red.green));
  CHECK(red.blue < red.red);
}

TEST_CASE("the ramp darkens all the way") {
  for (int k = 0; k < 256; ++k)
    CHECK(viz::luminance(viz::ramp(k / 256.0)) >
          viz::luminance(viz::ramp((k + 1) / 256.0)));
  // Over more than half of what lies between black and white.
  CHECK(viz::luminance(viz::ramp(0)) - viz::luminance(viz::ramp(1)) > 0.5);
}

TEST_CASE("the ramp moves away from its start for colour-blind eyes too") {
  const auto seen = [](double share) {
    return viz::lab(viz::as_deuteranope_sees(viz::ramp(share)));
  };
  for (int k = 0; k < 64; ++k)
    CHECK(distance(seen(0), seen((k + 1) / 64.0)) >
          distance(seen(0), seen(k / 64.0)));
}

TEST_CASE("the ramp ends where it ends") {
  CHECK(viz::hex(viz::ramp(-3)) == viz::hex(viz::ramp(0)));
  CHECK(viz::hex(viz::ramp(7)) == viz::hex(viz::ramp(1)));
}

TEST_CASE("colours are written as a page takes them") {
  CHECK(viz::hex({0, 0.5, 1}) == "#0080ff");
}

TEST_CASE("a picture goes grey without its words and numbers changing") {
  // By the formulas of WCAG 2.1 its luminance is 0.0171, a grey of 35.3.
  CHECK(viz::in_grey("<a fill=\"#1b2430\">say &quot;#a5673f&quot; "
                     "</a><b fill=\"url(#x)\" c=\"#fff\" d=\"#ffffff\"/>") ==
        "<a fill=\"#232323\">say &quot;#a5673f&quot; </a><b "
        "fill=\"url(#x)\" c=\"#fff\" d=\"#ffffff\"/>");
  CHECK(viz::in_grey("\"#abc") == "\"#abc");
}
