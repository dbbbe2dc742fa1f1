#pragma once

#include "mesh/shape.hpp"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

namespace thinspot::tests {

struct Example {
  const char* shape;
  mesh::Sizes sizes;
  bool kinked = false;  ///< an arc ends in a sharp corner
};

inline mesh::Outline draw(const Example& e, mesh::Cut cut = mesh::Cut::side) {
  return mesh::find_shape(e.shape)->outline(e.sizes, cut);
}

/// "coin diameter 0.03 thickness 0.0024", for messages.
inline std::string told(const Example& e) {
  std::string text = e.shape;
  for (const auto& [key, size] : e.sizes)
    text += fmt::format(" {} {}", key, size);
  return text;
}

/// Every shape with all its keys, then at its limits, then very small and very
/// large [m]; so that each of its faces shows in one of them.
inline std::vector<Example> examples() {
  return {
      {"coin", {{"diameter", 0.03}, {"thickness", 0.0024}}},
      {"coin",
       {{"diameter", 0.03},
        {"thickness", 0.0024},
        {"edge_radius", 0.0003},
        {"rim_width", 0.002},
        {"rim_height", 0.0004},
        {"rim_radius", 0.0001}}},
      // Roundings that leave neither a flat top of the rim nor a shoulder.
      {"coin",
       {{"diameter", 0.03},
        {"thickness", 0.0024},
        {"edge_radius", 0.0006},
        {"rim_width", 0.001},
        {"rim_height", 0.0004},
        {"rim_radius", 0.0004}},
       true},
      {"spoon", {{"chord", 0.05}, {"sagitta", 0.008}, {"thickness", 0.0015}}},
      // Half a circle, and bent around next to nothing.
      {"spoon", {{"chord", 0.03}, {"sagitta", 0.015}, {"thickness", 0.02999}}},
      {"spoon", {{"chord", 5}, {"sagitta", 6e-5}, {"thickness", 1e-4}}},
      {"spoon", {{"chord", 1e-4}, {"sagitta", 5e-5}, {"thickness", 1e-5}}},
      {"bracket", {{"leg_1", 0.04}, {"leg_2", 0.03}, {"thickness", 0.003}}},
      {"bracket",
       {{"leg_1", 0.04},
        {"leg_2", 0.03},
        {"thickness", 0.003},
        {"inside_radius", 0.002},
        {"outside_radius", 0.005},
        {"end_radius", 0.0005}}},
      // No straight left inside the shorter leg, round ends.
      {"bracket",
       {{"leg_1", 0.04},
        {"leg_2", 0.01},
        {"thickness", 0.002},
        {"inside_radius", 0.007},
        {"outside_radius", 0.009},
        {"end_radius", 0.001}}},
      {"bracket",
       {{"leg_1", 5},
        {"leg_2", 3},
        {"thickness", 1e-4},
        {"inside_radius", 1e-4},
        {"outside_radius", 2e-4}}},
      {"channel", {{"width", 0.03}, {"depth", 0.04}, {"wall", 0.002}}},
      {"channel",
       {{"width", 0.03},
        {"depth", 0.04},
        {"wall", 0.002},
        {"bottom_radius", 0.004},
        {"outside_radius", 0.006},
        {"edge_radius", 0.0005}}},
      // A round bottom and round lips: a cup bent of sheet.
      {"channel",
       {{"width", 0.03},
        {"depth", 0.04},
        {"wall", 0.002},
        {"bottom_radius", 0.013},
        {"outside_radius", 0.015},
        {"edge_radius", 0.001}}},
      {"channel", {{"width", 2e-4}, {"depth", 5}, {"wall", 5e-5}}},
      {"plate", {{"width", 0.002}, {"height", 0.05}, {"corner_radius", 5e-4}}},
      {"rod", {{"diameter", 0.01}, {"length", 0.06}, {"end_radius", 0.001}}},
      {"rod", {{"diameter", 1e-4}, {"length", 5}}},
      {"tube", {{"diameter", 0.02}, {"wall", 0.002}, {"length", 0.05}}},
      {"tube",
       {{"diameter", 0.02}, {"wall", 0.002}, {"length", 0.05}, {"open", 1}}},
  };
}

/// The examples of one shape.
inline std::vector<Example> examples_of(std::string_view shape) {
  std::vector<Example> some;
  for (const Example& e : examples())
    if (e.shape == shape) some.push_back(e);
  return some;
}

}  // namespace thinspot::tests
