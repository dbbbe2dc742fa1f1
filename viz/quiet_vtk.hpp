#pragma once

#include <memory>

namespace thinspot::viz {

/// While it lives, VTK's errors and warnings are kept from the terminal, and
/// what they were is known. One at a time, as VTK's own outlet is global.
class QuietVtk {
 public:
  QuietVtk();
  ~QuietVtk();
  QuietVtk(const QuietVtk&) = delete;
  QuietVtk& operator=(const QuietVtk&) = delete;

  bool complained() const;  ///< of an error; a warning is none

 private:
  struct Outlet;
  std::unique_ptr<Outlet> outlet_;
};

}  // namespace thinspot::viz
