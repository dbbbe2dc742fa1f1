#pragma once

#include "viz/window_paint.hpp"

#include <memory>
#include <string>

class vtkRenderer;

namespace thinspot::viz {

/// The text fit for the screen: broken UTF-8 and control characters taken out,
/// cut where it is longer than so many characters.
std::string screen_text(const std::string& text, std::size_t longest = 110);

/// What stands around the section in the window: title, step, colour bars, what
/// was read at a point, and the keys.
class WindowFrame {
 public:
  explicit WindowFrame(vtkRenderer* renderer);
  ~WindowFrame();

  void set_title(const std::string& text);
  void set_step(const std::string& text);
  void set_reading(const std::string& text);
  void set_keys(const std::string& text);
  void set_coat_bar(const ColourScale& scale, const std::string& title);
  /// @param scale  nullptr: no bar
  void set_liquid_bar(const ColourScale* scale, const std::string& title);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace thinspot::viz
