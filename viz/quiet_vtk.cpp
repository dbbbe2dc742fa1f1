#include "viz/quiet_vtk.hpp"

#include <vtkObjectFactory.h>
#include <vtkOutputWindow.h>
#include <vtkSmartPointer.h>

namespace thinspot::viz {

namespace {

/// Swallows all; counts errors.
class Swallower : public vtkOutputWindow {
 public:
  static Swallower* New();
  vtkTypeMacro(Swallower,
               vtkOutputWindow) void DisplayText(const char*) override {}
  void DisplayErrorText(const char*) override { ++errors; }
  void DisplayWarningText(const char*) override {}
  void DisplayGenericWarningText(const char*) override {}
  void DisplayDebugText(const char*) override {}

  int errors = 0;
};

vtkStandardNewMacro(Swallower)

}  // namespace

struct QuietVtk::Outlet {
  vtkSmartPointer<vtkOutputWindow> before = vtkOutputWindow::GetInstance();
  vtkSmartPointer<Swallower> here = vtkSmartPointer<Swallower>::New();
};

QuietVtk::QuietVtk() : outlet_(std::make_unique<Outlet>()) {
  vtkOutputWindow::SetInstance(outlet_->here);
}

QuietVtk::~QuietVtk() { vtkOutputWindow::SetInstance(outlet_->before); }

bool QuietVtk::complained() const { return outlet_->here->errors > 0; }

}  // namespace thinspot::viz
