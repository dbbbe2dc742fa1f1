#include "random_shape.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::tests {

std::string mm(double metres) {
  return fmt::format("\"{:.7g} mm\"", 1e3 * metres);
}

std::string random_shape(Lot& lot, double size, double thin,
                         bool stands_on_axis) {
  const double thick = size * thin;
  const auto kind =
      stands_on_axis ? lot.of<std::string>({"coin", "rod", "tube", "plate"})
                     : lot.of<std::string>({"coin", "coin", "spoon", "bracket",
                                            "channel", "plate", "rod", "tube"});
  std::string text = "shape = \"" + kind + "\"\n";
  const auto add = [&](const char* key, double value) {
    text += fmt::format("{} = {}\n", key, mm(value));
  };
  if (kind == "coin") {
    add("diameter", size);
    add("thickness", thick);
    if (lot.chance(0.6)) add("edge_radius", thick * lot.even(0, 0.49));
    if (lot.chance(0.2)) {
      add("rim_width", size * lot.even(0.03, 0.15));
      add("rim_height", thick * lot.even(0.02, 0.3));
    }
  } else if (kind == "spoon") {
    const double sagitta = size * lot.even(0.02, 0.45);
    add("chord", size);
    add("sagitta", sagitta);
    add("thickness", std::min(thick, 0.3 * sagitta));
  } else if (kind == "bracket") {
    add("leg_1", size);
    add("leg_2", size * lot.even(0.3, 1));
    add("thickness", std::min(thick, 0.25 * size));
    if (lot.chance(0.6)) add("inside_radius", thick * lot.even(0, 0.5));
  } else if (kind == "channel") {
    add("width", size);
    add("depth", size * lot.even(0.2, 3));
    add("wall", std::min(thick, 0.3 * size));
  } else if (kind == "plate") {
    add("width", thick);
    add("height", size);
    if (lot.chance(0.5)) add("corner_radius", thick * lot.even(0, 0.49));
  } else if (kind == "rod") {
    add("diameter", stands_on_axis ? thick : size);
    if (stands_on_axis || lot.chance(0.5)) add("length", size);
  } else {
    add("diameter", size);
    add("wall", size * lot.by_factor(0.01, 0.4));
    if (stands_on_axis || lot.chance(0.5)) add("length", size);
    if (lot.chance(0.5)) text += "open = true\n";
  }
  return text;
}

}  // namespace thinspot::tests
