#pragma once

#include "viz/liquid_layer.hpp"
#include "viz/window_data.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

class vtkRenderWindow;
class vtkRenderer;

namespace thinspot::viz {

/// What the window is to show at first.
struct WindowStart {
  std::string title;
  std::vector<std::string> steps;   ///< what each does, in words
  std::optional<std::size_t> step;  ///< from 0; the last where left out
  LiquidColour field = LiquidColour::potential;
};

/// The picture in the window and what can be done to it, without the window's
/// own events.
class WindowView {
 public:
  /// @param data  must outlive it
  /// @param on_screen  false: drawn in memory alone
  WindowView(const WindowData& data, const WindowStart& start, bool on_screen);
  ~WindowView();

  vtkRenderWindow* window() const;
  vtkRenderer* frame() const;  ///< where a slider belongs

  std::size_t step() const;
  void show_step(std::size_t step);
  void change_field();
  void look_at_all();
  void look_at_parts();
  /// Pixels are counted from the window's lower left corner.
  void pan(int pixels_right, int pixels_up);
  void zoom(double factor, int x, int y);
  /// Tells of the surface point at a place, and marks it.
  void ask(int x, int y);
  void say(const std::string& text);
  void draw();

  /// What the window shows, as a PNG file's bytes.
  /// @throws NoResultError where nothing could be drawn.
  std::string png();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace thinspot::viz
