#pragma once

#include "mesh/curve.hpp"
#include "mesh/module.hpp"
#include "viz/fine_mesh.hpp"

#include <memory>
#include <vector>

namespace thinspot::viz {

/// A chain of points in the section [m]; closed ones do not repeat the first.
using Chain = std::vector<mesh::Point>;

/// Lines and regions of a field by VTK's filters; as viz/liquid_field.hpp says
/// of each.
class Contours {
 public:
  Contours() = default;
  virtual ~Contours() = default;
  Contours(const Contours&) = delete;
  Contours& operator=(const Contours&) = delete;
  virtual std::vector<Chain> equipotential(double volts) const = 0;
  virtual std::vector<std::vector<Chain>> regions_above(
      const std::vector<double>& levels) const = 0;
  virtual Chain upstream(const mesh::Point& seed) const = 0;
};

/// What thinspot-contours.so does: VTK's filters take longer to load than the
/// rest of the program.
struct ContoursByVtk {
  std::unique_ptr<const Contours> (*of)(const FineMesh& fine);
};

/// VTK takes 38 MB for it (measured).
inline constexpr mesh::ModuleFile contours_module{"thinspot-contours",
                                                  64u << 20};

// Inside the module alone.
std::unique_ptr<const Contours> contours_by_vtk(const FineMesh& fine);

}  // namespace thinspot::viz
