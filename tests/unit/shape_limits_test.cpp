// Sizes of which no solid can be made: each gets one line that helps.
#include "mesh/errors.hpp"
#include "mesh/shape.hpp"
#include "tests/unit/shape_examples.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace thinspot;
using namespace thinspot::mesh;
using namespace thinspot::tests;

namespace {

/// "key: wrong; mend" of the one problem, or "" where there is none.
std::string refusal(const Example& e, Cut cut = Cut::side) {
  try {
    draw(e, cut);
  } catch (const InputError& error) {
    CHECK(error.problems().size() == 1);
    const Problem& p = error.problems().front();
    return p.key + ": " + p.wrong + "; " + p.mend;
  }
  return "";
}

Sizes with(Sizes sizes, const Sizes& others) {
  for (const auto& [key, size] : others) sizes[key] = size;
  return sizes;
}

}  // namespace

TEST_CASE("a size that is missing, nothing, or no number is named") {
  for (const ShapeKind& kind : shape_kinds()) {
    const auto all = examples();
    const auto found =
        std::find_if(all.begin(), all.end(),
                     [&](const Example& e) { return e.shape == kind.name; });
    if (found == all.end()) continue;  // "every shape has an example"
    const Example sound = *found;
    for (const SizeKey& key : kind.sizes) {
      const std::string name(key.name);
      // Whether a length shows depends on whether it is there.
      if (name == "length" || name.starts_with("rim")) continue;
      // The end of a rod that is seen end on does not show.
      const Cut cut = kind.name == "rod" ? Cut::axisymmetric : Cut::side;
      CAPTURE(std::string(kind.name), name);
      Example bad = sound;
      for (const double wrong :
           {-1e-3, std::nan(""), std::numeric_limits<double>::infinity()}) {
        bad.sizes[name] = wrong;
        CHECK(refusal(bad, cut).starts_with(name + ": "));
      }
      bad.sizes[name] = 0;
      CHECK(refusal(bad, cut).starts_with(name + ": ") == key.required);
      bad.sizes.erase(name);
      CHECK(refusal(bad, cut).starts_with(name + ": is missing") ==
            key.required);
    }
  }
  CHECK(refusal({"channel", {{"width", 0}, {"depth", 1}, {"wall", 0.1}}}) ==
        "width: 0 mm is no length; more than 0 mm");
  CHECK(refusal({"plate",
                 {{"width", 1}, {"height", 1}, {"corner_radius", -1e-3}}}) ==
        "corner_radius: -1 mm is not a radius; 0 mm for a sharp corner, or "
        "more");
}

TEST_CASE("a rim that the coin has no room for") {
  const Sizes coin{{"diameter", 0.03}, {"thickness", 0.0024}};
  const auto line = [&](const Sizes& rim) {
    return refusal({"coin", with(coin, rim)});
  };
  CHECK(line({{"edge_radius", 0.0013}}) ==
        "edge_radius: 1.3 mm does not fit: two of them share 2.4 mm; at most "
        "1.2 mm");
  CHECK(line({{"rim_width", 0.002}}) ==
        "rim_height: a raised rim has a width and a height; give both, or "
        "neither");
  CHECK(line({{"rim_height", 0.002}}).starts_with("rim_width: "));
  CHECK(line({{"rim_radius", 0.0001}}) ==
        "rim_radius: is for a raised rim, and there is none; give rim_width "
        "and rim_height, or leave it out");
  CHECK(line({{"rim_width", 0.015}, {"rim_height", 0.0002}}) ==
        "rim_width: 15 mm leaves no field in a diameter of 30 mm; less than 15 "
        "mm");
  CHECK(line({{"rim_width", 0.002}, {"rim_height", 0.0012}}) ==
        "rim_height: 1.2 mm on both faces leaves no metal between them: the "
        "thickness of 2.4 mm is that of the rim; less than 1.2 mm");
  CHECK(line({{"rim_width", 0.002},
              {"rim_height", 0.0002},
              {"rim_radius", 0.0003}}) ==
        "rim_radius: 0.3 mm does not fit: the rim is 2 mm wide and 0.2 mm "
        "high; at most 0.2 mm");
  CHECK(line({{"rim_width", 0.0005},
              {"rim_height", 0.0002},
              {"rim_radius", 0.0002},
              {"edge_radius", 0.0004}}) ==
        "edge_radius: 0.4 mm does not fit: the top of the rim is 0.3 mm wide; "
        "at most 0.3 mm");
}

TEST_CASE("a spoon that cannot be bent so") {
  const auto line = [](double chord, double sagitta, double thickness) {
    return refusal(
        {"spoon",
         {{"chord", chord}, {"sagitta", sagitta}, {"thickness", thickness}}});
  };
  CHECK(line(0.05, 0, 0.001) ==
        "sagitta: 0 mm is a flat strip; shape = \"plate\", or the depth of the "
        "bowl");
  CHECK(line(0.05, 1e-7, 0.001).starts_with("sagitta: 0.0001 mm is a flat"));
  CHECK(line(0.05, -0.01, 0.001).starts_with("sagitta: -10 mm is no length"));
  CHECK(line(0.05, 0.026, 0.001) ==
        "sagitta: 26 mm does not fit: a chord of 50 mm ends at half a circle; "
        "at most 25 mm");
  // Half a circle of 25 mm can be 50 mm thick at most, and then has no bowl.
  CHECK(line(0.05, 0.025, 0.049).empty());
  CHECK(line(0.05, 0.025, 0.05) ==
        "thickness: 50 mm is too thick for a middle line bent to a radius of "
        "25 mm; less than 50 mm");
}

TEST_CASE("a bracket whose corner or ends have no room") {
  const Sizes legs{{"leg_1", 0.04}, {"leg_2", 0.03}, {"thickness", 0.003}};
  const auto line = [&](const Sizes& others) {
    return refusal({"bracket", with(legs, others)});
  };
  CHECK(line({{"thickness", 0.03}}) ==
        "thickness: 30 mm leaves no inside corner: the shorter leg is 30 mm "
        "over all; less than 30 mm");
  CHECK(line({{"end_radius", 0.002}}) ==
        "end_radius: 2 mm does not fit: a leg's end is 3 mm across; at most "
        "1.5 mm");
  CHECK(line({{"inside_radius", 0.0265}, {"end_radius", 0.001}}) ==
        "inside_radius: 26.5 mm does not fit: the shorter leg has 26 mm of "
        "straight inside; at most 26 mm");
  CHECK(line({{"outside_radius", 0.031}, {"inside_radius", 0.027}}) ==
        "outside_radius: 31 mm does not fit: the shorter leg has 30 mm of "
        "straight outside; at most 30 mm");
  // 3 mm x sqrt 2/(sqrt 2 - 1) = 10.243 mm: a sharp inside corner is reached.
  CHECK(line({{"outside_radius", 0.0102}}).empty());
  CHECK(line({{"outside_radius", 0.0103}}) ==
        "outside_radius: 10.3 mm cuts through to the inside corner; less than "
        "10.24 mm");
}

TEST_CASE("a channel without mouth or recess, or with too much rounding") {
  const Sizes u{{"width", 0.03}, {"depth", 0.04}, {"wall", 0.002}};
  const auto line = [&](const Sizes& others) {
    return refusal({"channel", with(u, others)});
  };
  CHECK(line({{"wall", 0.015}}) ==
        "wall: 15 mm leaves no mouth in a width of 30 mm; less than 15 mm");
  CHECK(line({{"wall", 0.01}, {"depth", 0.01}}) ==
        "wall: 10 mm leaves no recess in a depth of 10 mm; less than 10 mm");
  CHECK(line({{"edge_radius", 0.0011}}) ==
        "edge_radius: 1.1 mm does not fit: a lip is 2 mm across, the recess 38 "
        "mm deep; at most 1 mm");
  CHECK(line({{"bottom_radius", 0.0131}}) ==
        "bottom_radius: 13.1 mm does not fit: the recess is 26 mm wide; at "
        "most 13 mm");
  CHECK(line({{"depth", 0.01}, {"bottom_radius", 0.009}}) ==
        "bottom_radius: 9 mm does not fit: the wall inside is straight for 8 "
        "mm; at most 8 mm");
  CHECK(line({{"outside_radius", 0.016}, {"bottom_radius", 0.013}}) ==
        "outside_radius: 16 mm does not fit: the channel is 30 mm wide and 40 "
        "mm deep; at most 15 mm");
  CHECK(line({{"outside_radius", 0.007}}) ==
        "outside_radius: 7 mm cuts through to the inside corner; less than "
        "6.828 mm");
}

TEST_CASE("a plate, rod or tube that cannot be") {
  CHECK(refusal(
            {"plate",
             {{"width", 0.002}, {"height", 0.05}, {"corner_radius", 0.002}}}) ==
        "corner_radius: 2 mm does not fit: two of them share 2 mm; at most 1 "
        "mm");
  CHECK(refusal({"rod", {{"diameter", 0.01}}}, Cut::axisymmetric)
            .starts_with("length: is missing"));
  CHECK(refusal({"tube", {{"diameter", 0.02}, {"wall", 0.01}}}) ==
        "wall: 10 mm leaves no bore; less than 10 mm, or shape = \"rod\"");
}
