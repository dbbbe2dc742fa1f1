// Results read back: a summary.json, or a surface.csv beside the one in the
// corpus.
#include "io/kept_summary.hpp"
#include "io/kept_surface.hpp"
#include "tests/fuzz/target.hpp"

#include <cmath>

namespace thinspot::fuzz {

namespace {

void require_finite(const solver::Spread& s) {
  require(std::isfinite(s.min) && std::isfinite(s.mean) && std::isfinite(s.max),
          "figures are finite");
}

void require_summary(const solver::Result& r) {
  require(!r.parts.empty() && !r.steps.empty(), "there are parts and steps");
  for (const solver::PartResult& p : r.parts) {
    require_finite(p.thickness.value);
    require_finite(p.current_density.value);
    require(std::isfinite(p.area) && std::isfinite(p.mass),
            "area and mass are finite");
  }
  require(std::isfinite(r.cell.voltage) && std::isfinite(r.cell.current),
          "the meter reads something");
}

void require_surface(const solver::Result& r) {
  for (const solver::PartResult& p : r.parts) {
    require(p.surface.size() >= 3, "a surface has points");
    for (const solver::SurfacePoint& at : p.surface) {
      require(at.at.allFinite() && std::isfinite(at.thickness) &&
                  std::isfinite(at.current_density),
              "points are finite");
      require(
          at.face >= 0 && static_cast<std::size_t>(at.face) < p.faces.size(),
          "a point has its face");
    }
  }
  require(r.section.solids.size() == r.parts.size(), "each part is a solid");
  for (const mesh::PlacedSolid& solid : r.section.solids)
    for (const mesh::Loop& loop : solid.outline.loops)
      for (std::size_t k = 0; k < loop.size(); ++k)
        require(loop[k].to == loop[(k + 1) % loop.size()].from,
                "a loop is closed");
}

}  // namespace

bool one_input(std::string_view bytes) {
  static const io::KeptSummary summary = io::read_summary(
      tree_file("tests/fuzz/corpus/kept_folder/summary").substr(1));
  const Chosen input = chosen(bytes, 2);
  try {
    if (input.way == 0) {
      require_summary(io::read_summary(input.rest).kept.result);
    } else {
      solver::KeptResult kept = summary.kept;
      io::read_surface(input.rest, kept);
      require_surface(kept.result);
    }
  } catch (const InputError& error) {
    require_clear(error);
  }
  return true;
}

}  // namespace thinspot::fuzz
