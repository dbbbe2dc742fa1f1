#include "io/starter_set_ups.hpp"

namespace thinspot::io {

namespace {

using mesh::Cut;

constexpr std::string_view kUpright =
    "cut upright through its middle: x to the right, y up";

StarterSetUp coin() {
  return {"coin",
          "Coin blank of 30 mm with a raised rim, two copper sheets",
          kUpright,
          Cut::side,
          {{"diameter", 30},
           {"thickness", 2.4},
           {"edge_radius", 0.3},
           {"rim_width", 1.5},
           {"rim_height", 0.2},
           {"rim_radius", 0.1}},
          {},
          0,
          "",
          {},
          {}};
}

StarterSetUp spoon() {
  return {"spoon",
          "Bowl of a spoon, 50 mm long, two copper sheets",
          "cut upright along the spoon: x to the right, y up",
          Cut::side,
          {{"chord", 50}, {"sagitta", 8}, {"thickness", 1.5}},
          {},
          -90,
          "tip down, bowl to the right; 0 deg: bowl on top",
          {},
          33};
}

StarterSetUp bracket() {
  return {"bracket",
          "L bracket of 40 mm by 30 mm, two copper sheets",
          "cut across its bend: x to the right, y up",
          Cut::side,
          {{"leg_1", 40},
           {"leg_2", 30},
           {"thickness", 3},
           {"inside_radius", 2},
           {"outside_radius", 5},
           {"end_radius", 0.3}},
          {},
          0,
          "0 deg: leg 1 lies, leg 2 stands at its left",
          20,
          {}};
}

StarterSetUp channel() {
  return {"channel",
          "U channel of 30 mm by 20 mm, two copper sheets",
          "cut across the channel: x to the right, y up",
          Cut::side,
          {{"width", 30},
           {"depth", 20},
           {"wall", 2},
           {"bottom_radius", 1},
           {"outside_radius", 2},
           {"edge_radius", 0.3}},
          {},
          90,
          "mouth to the left sheet; 0 deg: mouth above",
          50,
          {}};
}

StarterSetUp plate() {
  return {"plate",
          "Strip of 60 mm by 40 mm, two copper sheets",
          "cut upright through its thickness: x right, y up",
          Cut::side,
          {{"width", 2}, {"height", 60}, {"corner_radius", 0.2}},
          {},
          0,
          "",
          40,
          {}};
}

StarterSetUp rod() {
  return {"rod",
          "Rod of 10 mm, upright between two copper sheets",
          "seen from above: x to the right, y away from you",
          Cut::plan,
          {{"diameter", 10}, {"length", 60}, {"end_radius", 0.5}},
          {},
          0,
          "",
          {},
          {}};
}

StarterSetUp tube() {
  return {"tube",
          "Open tube of 20 mm inside a ring of copper sheet",
          "turned about its own axis: x is the radius, y up",
          Cut::axisymmetric,
          {{"diameter", 20}, {"wall", 2}, {"length", 40}},
          {"open"},
          0,
          "",
          {},
          {}};
}

StarterSetUp outline() {
  return {"outline",
          "Drawer pull from a drawing, two copper sheets",
          "cut across the pull: x to the right, y up",
          Cut::side,
          {},
          {},
          90,
          "grip to the left sheet; 0 deg: as drawn",
          25,
          {}};
}

}  // namespace

const std::vector<StarterSetUp>& starter_set_ups() {
  static const std::vector<StarterSetUp> all{
      coin(), spoon(), bracket(), channel(), plate(), rod(), tube(), outline()};
  return all;
}

const std::vector<DrawnPoint>& sample_drawing() {
  static const std::vector<DrawnPoint> points{{0, 0, 0, "foot"},
                                              {40, 0, 0, "lower edge"},
                                              {40, 4, -0.3, "lower hollow"},
                                              {26, 14, 0.5, "grip"},
                                              {14, 14, -0.3, "upper hollow"},
                                              {0, 4, 0, "upper edge"}};
  return points;
}

}  // namespace thinspot::io
