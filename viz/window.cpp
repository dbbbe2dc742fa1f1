#include "viz/window.hpp"

#include "viz/quiet_vtk.hpp"
#include "viz/window_paint.hpp"

#include <vtkCommand.h>
#include <vtkCoordinate.h>
#include <vtkInteractorStyle.h>
#include <vtkNew.h>
#include <vtkObjectFactory.h>
#include <vtkProperty2D.h>
#include <vtkRenderWindow.h>
#include <vtkRenderWindowInteractor.h>
#include <vtkRenderer.h>
#include <vtkSliderRepresentation2D.h>
#include <vtkSliderWidget.h>
#include <vtkTextProperty.h>

#include <cmath>
#include <cstdlib>
#include <string_view>

namespace thinspot::viz {

namespace {

/// Farther than this a press is a drag, not a click [pixels].
constexpr int kSteady = 3;
constexpr double kZoom = 1.25;

/// What mouse and keys do. VTK's own meanings of keys are left out.
class Hands : public vtkInteractorStyle {
 public:
  static Hands* New();
  vtkTypeMacro(Hands, vtkInteractorStyle)

      WindowView* view = nullptr;
  vtkSliderRepresentation2D* slider = nullptr;
  SavePicture save;

  void OnLeftButtonDown() override {
    pressed_ = true;
    dragged_ = false;
    from_[0] = x();
    from_[1] = y();
  }
  void OnMouseMove() override {
    if (!pressed_) return;
    const int right = x() - from_[0], up = y() - from_[1];
    if (!dragged_ && std::abs(right) + std::abs(up) <= kSteady) return;
    dragged_ = true;
    from_[0] = x();
    from_[1] = y();
    view->pan(right, up);
    view->draw();
  }
  void OnLeftButtonUp() override {
    if (pressed_ && !dragged_) {
      view->ask(x(), y());
      view->draw();
    }
    pressed_ = false;
  }
  void OnMouseWheelForward() override { zoom(kZoom); }
  void OnMouseWheelBackward() override { zoom(1 / kZoom); }
  void OnMiddleButtonDown() override {}
  void OnMiddleButtonUp() override {}
  void OnRightButtonDown() override {}
  void OnRightButtonUp() override {}
  void OnChar() override {}
  void OnKeyPress() override {
    const char* symbol = Interactor->GetKeySym();
    if (symbol && act(symbol)) view->draw();
  }
  /// The slider was moved.
  void slid() {
    go_to(static_cast<std::size_t>(std::lround(slider->GetValue())) - 1);
  }

 private:
  int x() const { return Interactor->GetEventPosition()[0]; }
  int y() const { return Interactor->GetEventPosition()[1]; }

  void zoom(double factor) {
    view->zoom(factor, x(), y());
    view->draw();
  }
  void go_to(std::size_t step) {
    view->show_step(step);
    if (slider) slider->SetValue(static_cast<double>(view->step()) + 1);
  }
  /// @returns whether the key means something
  bool act(std::string_view key) {
    if (key == "q" || key == "Q" || key == "Escape") {
      Interactor->TerminateApp();
      return false;
    }
    if (key == "Right") go_to(view->step() + 1);
    if (key == "Left") go_to(view->step() > 0 ? view->step() - 1 : 0);
    if (key == "Home") go_to(0);
    if (key == "End") go_to(std::size_t(-1));
    if (key == "f" || key == "F") view->change_field();
    if (key == "p" || key == "P") view->look_at_parts();
    if (key == "a" || key == "A") view->look_at_all();
    if (key == "plus" || key == "KP_Add") view->zoom(kZoom, x(), y());
    if (key == "minus" || key == "KP_Subtract") view->zoom(1 / kZoom, x(), y());
    if (key == "s" || key == "S") view->say(save(view->png()));
    return true;
  }

  bool pressed_ = false, dragged_ = false;
  int from_[2] = {0, 0};
};

vtkStandardNewMacro(Hands)

    void paint(vtkProperty2D* property, const char* colour) {
  const Rgb c = rgb(colour);
  property->SetColor(c.red, c.green, c.blue);
}

/// A slider with a stop for each step, at the lower right.
void dress(vtkSliderRepresentation2D* slider, std::size_t steps) {
  slider->SetMinimumValue(1);
  slider->SetMaximumValue(static_cast<double>(steps));
  slider->SetLabelFormat("step %.0f");
  slider->GetPoint1Coordinate()->SetCoordinateSystemToNormalizedDisplay();
  slider->GetPoint1Coordinate()->SetValue(0.62, 0.055);
  slider->GetPoint2Coordinate()->SetCoordinateSystemToNormalizedDisplay();
  slider->GetPoint2Coordinate()->SetValue(0.83, 0.055);
  slider->SetTubeWidth(0.004);
  slider->SetSliderLength(0.012);
  slider->SetSliderWidth(0.02);
  slider->SetEndCapLength(0.002);
  slider->SetEndCapWidth(0.012);
  slider->SetLabelHeight(0.02);
  const Rgb ink = rgb(colour::ink);
  slider->GetLabelProperty()->SetColor(ink.red, ink.green, ink.blue);
  slider->GetLabelProperty()->ShadowOff();
  slider->GetLabelProperty()->BoldOff();
  paint(slider->GetSliderProperty(), colour::potential);
  paint(slider->GetSelectedProperty(), colour::coating);
  paint(slider->GetTubeProperty(), colour::not_judged);
  paint(slider->GetCapProperty(), colour::not_judged);
}

}  // namespace

void show_window(const WindowData& data, const WindowStart& start,
                 const SavePicture& save) {
  const QuietVtk quiet;
  WindowView view(data, start, true);
  vtkNew<vtkRenderWindowInteractor> interactor;
  interactor->SetRenderWindow(view.window());
  vtkNew<Hands> hands;
  hands->view = &view;
  hands->save = save;
  interactor->SetInteractorStyle(hands);

  vtkNew<vtkSliderRepresentation2D> look;
  vtkNew<vtkSliderWidget> slider;
  view.draw();
  interactor->Initialize();
  if (data.steps.size() > 1) {
    dress(look, data.steps.size());
    look->SetValue(static_cast<double>(view.step()) + 1);
    hands->slider = look;
    slider->SetInteractor(interactor);
    slider->SetRepresentation(look);
    slider->SetCurrentRenderer(view.frame());
    slider->SetAnimationModeToJump();
    slider->KeyPressActivationOff();
    slider->AddObserver(vtkCommand::InteractionEvent, hands.Get(),
                        &Hands::slid);
    slider->EnabledOn();
  }
  view.draw();
  interactor->Start();
}

std::string window_picture(const WindowData& data, const WindowStart& start) {
  const QuietVtk quiet;
  return WindowView(data, start, false).png();
}

}  // namespace thinspot::viz
