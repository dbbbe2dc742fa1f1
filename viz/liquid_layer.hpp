#pragma once

#include "viz/window_data.hpp"
#include "viz/window_paint.hpp"

#include <memory>
#include <string>

class vtkRenderer;

namespace thinspot::viz {

/// What the liquid is coloured by.
enum class LiquidColour { potential, current_density };

/// The liquid in the window, and the outlines of what stands in it.
class LiquidLayer {
 public:
  /// @param part   surface of the parts where they stand in the liquid
  /// @param layer  height of one layer over another [mm]
  LiquidLayer(const LiquidData& liquid, const SurfaceData& part, double layer,
              vtkRenderer* renderer);
  ~LiquidLayer();

  void colour_by(LiquidColour field);
  /// False: the liquid is that of another step, and only its outline is shown.
  void set_known(bool known);

  /// Lines keep their width on the screen whatever the magnification.
  void set_scale(double mm_a_pixel);

  const ColourScale& colours() const;
  std::string bar_title() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace thinspot::viz
