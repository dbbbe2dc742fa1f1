#include "viz/metal_look.hpp"

#include <array>
#include <string_view>

namespace thinspot::viz {

namespace {

struct Row {
  std::string_view metal;
  MetalLook look;
};

const std::array<Row, 7>& table() {
  static const std::array<Row, 7> rows{{{"copper", {"#c8733c", "#6d3510"}},
                                        {"nickel", {"#a9b5bd", "#4d5a63"}},
                                        {"zinc", {"#8fa9c4", "#3c5470"}},
                                        {"tin", {"#c3c9b4", "#60684a"}},
                                        {"silver", {"#d3d6e0", "#666c80"}},
                                        {"gold", {"#dcb53f", "#735a0c"}},
                                        {"iron", {"#7d7472", "#3a3332"}}}};
  return rows;
}

const std::array<MetalLook, 3>& others() {
  static const std::array<MetalLook, 3> looks{
      {{"#8fb59c", "#3d6249"}, {"#b296c4", "#5c4170"}, {"#c4ab7d", "#6b5526"}}};
  return looks;
}

}  // namespace

MetalLook look_of_metal(const std::string& metal, std::size_t layer) {
  // "copper(I)" is copper.
  const std::string_view name(metal.data(), metal.find('(') == metal.npos
                                                ? metal.size()
                                                : metal.find('('));
  for (const Row& row : table())
    if (row.metal == name) return row.look;
  return others()[layer % others().size()];
}

}  // namespace thinspot::viz
