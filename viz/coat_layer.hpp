#pragma once

#include "viz/window_data.hpp"
#include "viz/window_paint.hpp"

#include <memory>
#include <optional>

class vtkRenderer;

namespace thinspot::viz {

/// The parts in the window: metal, with the coating as a thick line around it,
/// coloured by thickness, and a mark on the point that was asked for.
class CoatLayer {
 public:
  /// @param layer  height of one layer over another [mm]
  CoatLayer(const WindowData& data, double layer, vtkRenderer* renderer);
  ~CoatLayer();

  void show_step(std::size_t step);
  /// Lines keep their width on the screen whatever the magnification.
  void set_scale(double mm_a_pixel);

  /// @returns the surface point nearest to a place in the step shown; nothing
  ///          where none is within reach [mm]
  std::optional<Eigen::Index> nearest(const Eigen::Vector2d& at,
                                      double reach) const;
  void mark(std::optional<Eigen::Index> point);
  std::optional<Eigen::Index> marked() const;

  const ColourScale& colours() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace thinspot::viz
