// press_keys WORD...: plays a user of the program's window. Waits for a window
// whose title begins with "thinspot", then does what each WORD says: a key by
// its name ("Right", "s"), "click:X,Y", "drag:X,Y,X,Y", or "wheel:X,Y", pixels
// from the upper left corner. "wait:FILE" waits until a file is there.

#include <X11/Xlib.h>

#include <chrono>
#include <filesystem>
#include <memory>
#include <string>
#include <thread>

namespace {

constexpr int kPatience = 200;  // tenths of a second

void pause_for(int milliseconds) {
  std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds));
}

Window find(Display* display, Window in) {
  char* name = nullptr;
  if (XFetchName(display, in, &name) != 0 && name) {
    const bool ours = std::string(name).starts_with("thinspot");
    XFree(name);
    if (ours) return in;
  }
  Window root = 0, parent = 0, *children = nullptr, found = 0;
  unsigned count = 0;
  if (XQueryTree(display, in, &root, &parent, &children, &count) == 0) return 0;
  for (unsigned k = 0; k < count && found == 0; ++k)
    found = find(display, children[k]);
  if (children) XFree(children);
  return found;
}

class User {
 public:
  User(Display* display, Window window) : display_(display), window_(window) {}

  bool act(const std::string& word) {
    int x = 0, y = 0, to_x = 0, to_y = 0;
    if (std::sscanf(word.c_str(), "click:%d,%d", &x, &y) == 2) {
      button(x, y, Button1);
    } else if (std::sscanf(word.c_str(), "wheel:%d,%d", &x, &y) == 2) {
      button(x, y, Button4);
    } else if (std::sscanf(word.c_str(), "drag:%d,%d,%d,%d", &x, &y, &to_x,
                           &to_y) == 4) {
      drag(x, y, to_x, to_y);
    } else if (word.starts_with("wait:")) {
      for (int k = 0; !std::filesystem::exists(word.substr(5)); ++k) {
        if (k == kPatience) return false;
        pause_for(100);
      }
    } else {
      const KeySym symbol = XStringToKeysym(word.c_str());
      if (symbol == NoSymbol) return false;
      key(symbol);
    }
    XSync(display_, False);
    pause_for(300);
    return true;
  }

 private:
  template <class Event>
  Event event(int type, int x, int y) const {
    Event e{};
    e.type = type;
    e.display = display_;
    e.window = window_;
    e.root = DefaultRootWindow(display_);
    e.time = CurrentTime;
    e.x = x;
    e.y = y;
    e.same_screen = True;
    return e;
  }
  void send(XEvent* e, long mask) {
    XSendEvent(display_, window_, True, mask, e);
  }
  void key(KeySym symbol) {
    for (const int type : {KeyPress, KeyRelease}) {
      XEvent e{};
      e.xkey = event<XKeyEvent>(type, 600, 400);
      e.xkey.keycode = XKeysymToKeycode(display_, symbol);
      send(&e, type == KeyPress ? KeyPressMask : KeyReleaseMask);
    }
  }
  void press(int type, int x, int y, unsigned which) {
    XEvent e{};
    e.xbutton = event<XButtonEvent>(type, x, y);
    e.xbutton.button = which;
    e.xbutton.state = type == ButtonRelease ? Button1Mask : 0;
    send(&e, type == ButtonPress ? ButtonPressMask : ButtonReleaseMask);
  }
  void button(int x, int y, unsigned which) {
    press(ButtonPress, x, y, which);
    press(ButtonRelease, x, y, which);
  }
  void drag(int x, int y, int to_x, int to_y) {
    press(ButtonPress, x, y, Button1);
    for (int k = 1; k <= 5; ++k) {
      XEvent e{};
      e.xmotion = event<XMotionEvent>(MotionNotify, x + (to_x - x) * k / 5,
                                      y + (to_y - y) * k / 5);
      e.xmotion.state = Button1Mask;
      send(&e, PointerMotionMask);
    }
    press(ButtonRelease, to_x, to_y, Button1);
  }

  Display* display_;
  Window window_;
};

struct Close {
  void operator()(Display* display) const { XCloseDisplay(display); }
};

}  // namespace

int main(int argc, char** argv) {
  const std::unique_ptr<Display, Close> display(XOpenDisplay(nullptr));
  if (!display) return 1;
  Window window = 0;
  for (int k = 0; window == 0; ++k) {
    if (k == kPatience) return 2;
    pause_for(100);
    window = find(display.get(), DefaultRootWindow(display.get()));
  }
  pause_for(1000);
  User user(display.get(), window);
  for (int k = 1; k < argc; ++k)
    if (!user.act(argv[k])) return 3;
  return 0;
}
