#include "viz/display.hpp"

#include "mesh/errors.hpp"

#include <GL/glx.h>
#include <X11/Xlib.h>

#include <cstdlib>
#include <memory>
#include <string>

namespace thinspot::viz {

namespace {

struct Close {
  void operator()(Display* display) const { XCloseDisplay(display); }
};

}  // namespace

void require_display() {
  const char* named = std::getenv("DISPLAY");
  if (!named || !*named)
    throw NoResultError(
        "there is no display to open a window on (DISPLAY is not set); run it "
        "on a desktop, or with --save under xvfb-run");
  const std::unique_ptr<Display, Close> display(XOpenDisplay(nullptr));
  if (!display)
    throw NoResultError("the display " + std::string(named).substr(0, 100) +
                        " cannot be opened; set DISPLAY to one that can");
  int error = 0, event = 0;
  if (!glXQueryExtension(display.get(), &error, &event))
    throw NoResultError("the display " + std::string(named).substr(0, 100) +
                        " cannot draw with OpenGL; use another");
}

}  // namespace thinspot::viz
