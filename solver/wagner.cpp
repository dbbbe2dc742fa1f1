#include "solver/wagner.hpp"

#include "solver/case.hpp"
#include "solver/supply.hpp"

#include <algorithm>

namespace thinspot::solver {

Wagner wagner_of(const Model& model, const Case& c, const WorkingPoint& point,
                 const Surface& surface) {
  const mesh::Box box = mesh::bounding_box(solid_of(model, surface).outline);
  Wagner w;
  // Of a body on the axis only one half is in the section.
  const bool half = model.section.cut == mesh::Cut::axisymmetric &&
                    box.low.x() < 1e-6 * box.high.x();
  w.length = 0.5 * std::max((half ? 2 : 1) * box.size().x(), box.size().y());
  w.number = c.solution.conductivity.value *
             point.laws[surface.electrode].resistance / w.length;
  return w;
}

}  // namespace thinspot::solver
