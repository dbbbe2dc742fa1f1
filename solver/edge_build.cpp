#include "solver/edge_build.hpp"

#include "solver/result.hpp"

#include <array>

namespace thinspot::solver {

namespace {

struct Row {
  const char* metal;
  double from;  ///< [m]
  const char* likely;
};

// From simple solutions without levellers, at edges and tips. Common practice,
// no source: from memory.
constexpr std::array<Row, 7> kTable{{
    {"tin", 15e-6, "needles and trees"},
    {"gold", 20e-6, "loose powder"},
    {"silver", 30e-6, "needles and trees"},
    {"zinc", 40e-6, "trees"},
    {"brass", 40e-6, "nodules"},
    {"copper", 50e-6, "nodules"},
    {"nickel", 100e-6, "nodules and cracks"},
}};

}  // namespace

std::optional<EdgeBuild> edge_build(const Result& result) {
  std::optional<EdgeBuild> worst;
  for (const PartResult& part : result.parts) {
    const double most = part.thickness.value.max;
    for (const Row& row : kTable) {
      if (result.used.solution.metal.name != row.metal || most <= row.from)
        continue;
      if (worst && worst->thickness >= most) continue;
      worst =
          EdgeBuild{row.from, most, row.likely,
                    part.heavy_spots.empty() ? std::string()
                                             : part.heavy_spots.front().where};
    }
  }
  return worst;
}

}  // namespace thinspot::solver
