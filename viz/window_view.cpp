#include "viz/window_view.hpp"

#include "mesh/digits.hpp"
#include "mesh/errors.hpp"
#include "viz/coat_layer.hpp"
#include "viz/point_words.hpp"
#include "viz/window_frame.hpp"

#include <fmt/format.h>

#include <vtkCamera.h>
#include <vtkCommand.h>
#include <vtkNew.h>
#include <vtkPNGWriter.h>
#include <vtkRenderWindow.h>
#include <vtkRenderer.h>
#include <vtkSmartPointer.h>
#include <vtkUnsignedCharArray.h>
#include <vtkWindowToImageFilter.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr int kWidth = 1200, kHeight = 800;
/// Left, lower, right, upper edge of the section's place in the window.
constexpr double kPlace[] = {0.015, 0.1, 0.84, 0.9};
/// Where a click still means a point [pixels].
constexpr double kReach = 14;
/// Free room around what is looked at.
constexpr double kMargin = 1.08;

struct Box {
  Eigen::Vector2d low, high;
  Eigen::Vector2d size() const { return high - low; }
};

Box box_of(const Eigen::Matrix2Xd& points) {
  return {points.rowwise().minCoeff(), points.rowwise().maxCoeff()};
}

/// Liquid, and parts as they stand in every step.
Box whole(const WindowData& data) {
  Box all = box_of(data.steps.front().surface.points);
  const auto add = [&](const Box& box) {
    all.low = all.low.cwiseMin(box.low);
    all.high = all.high.cwiseMax(box.high);
  };
  for (const StepData& step : data.steps) add(box_of(step.surface.points));
  if (data.liquid) add(box_of(data.liquid->nodes));
  return all;
}

}  // namespace

struct WindowView::Parts {
  Parts(const WindowData& shown, const WindowStart& wanted)
      : data(shown), start(wanted), field(wanted.field), all(whole(shown)) {}

  const WindowData& data;
  WindowStart start;
  std::size_t step = 0;
  LiquidColour field;
  Box all;
  vtkNew<vtkRenderWindow> window;
  vtkNew<vtkRenderer> around, scene;
  std::unique_ptr<WindowFrame> frame;
  std::unique_ptr<LiquidLayer> liquid;
  std::unique_ptr<CoatLayer> coat;

  double layer() const { return all.size().maxCoeff(); }
  Eigen::Vector2d pixels() const {
    const int* size = window->GetSize();
    return {size[0] * (kPlace[2] - kPlace[0]),
            size[1] * (kPlace[3] - kPlace[1])};
  }
  double mm_a_pixel() const {
    return 2 * scene->GetActiveCamera()->GetParallelScale() / pixels().y();
  }
  Eigen::Vector2d middle() const {
    const double* at = scene->GetActiveCamera()->GetPosition();
    return {at[0], at[1]};
  }
  void look(const Eigen::Vector2d& at, double half_height) {
    vtkCamera* camera = scene->GetActiveCamera();
    camera->SetFocalPoint(at.x(), at.y(), 0);
    camera->SetPosition(at.x(), at.y(), 20 * layer());
    camera->SetViewUp(0, 1, 0);
    camera->SetClippingRange(layer(), 30 * layer());
    camera->SetParallelScale(half_height);
  }
  void look_at(const Box& box) {
    const Eigen::Vector2d room = pixels();
    const Eigen::Vector2d size = box.size();
    const double half =
        std::max(size.y(), size.x() * room.y() / room.x()) / 2 * kMargin;
    look((box.low + box.high) / 2, std::max(half, layer() * 1e-4));
  }
  Eigen::Vector2d place_at(int x, int y) const {
    const int* size = window->GetSize();
    const Eigen::Vector2d centre(size[0] * (kPlace[0] + kPlace[2]) / 2,
                                 size[1] * (kPlace[1] + kPlace[3]) / 2);
    return middle() + mm_a_pixel() * (Eigen::Vector2d(x, y) - centre);
  }
  void keep_widths() {
    coat->set_scale(mm_a_pixel());
    if (liquid) liquid->set_scale(mm_a_pixel());
  }

  bool liquid_known() const { return liquid && step + 1 == data.steps.size(); }
  std::string step_words() const;
  void show_field();
  /// @param hints  what can be done is told, as on the screen; not in a picture
  void show_words(bool hints);
};

std::string WindowView::Parts::step_words() const {
  std::string words =
      fmt::format("After {} min", digits(data.steps[step].minutes));
  if (data.steps.size() > 1)
    words = fmt::format("After step {} of {}, {} min", step + 1,
                        data.steps.size(), digits(data.steps[step].minutes));
  const std::string what =
      step < start.steps.size() ? start.steps[step] : std::string();
  if (!what.empty() && (data.steps.size() > 1 || what != "as drawn"))
    words += " (" + what + ")";
  if (liquid && !liquid_known())
    words += ". The liquid's colours belong to the last step";
  return words;
}

void WindowView::Parts::show_field() {
  if (liquid) {
    liquid->colour_by(field);
    liquid->set_known(liquid_known());
  }
  frame->set_liquid_bar(liquid_known() ? &liquid->colours() : nullptr,
                        liquid ? liquid->bar_title() : "");
}

void WindowView::Parts::show_words(bool hints) {
  const auto point = coat->marked();
  if (point)
    frame->set_reading(point_words(data.steps[step].surface, *point));
  else
    frame->set_reading(hints ? "Click a point of the part to read it." : "");
  const char* const steps = data.steps.size() > 1 ? "left, right: step   " : "";
  frame->set_keys(
      hints ? std::string(steps) +
                  "F: potential or current density   P: parts   A: all   "
                  "wheel or + -: nearer, farther   drag: move   "
                  "S: save a picture   Q: close"
            : "");
}

WindowView::WindowView(const WindowData& data, const WindowStart& start,
                       bool on_screen)
    : parts_(std::make_unique<Parts>(data, start)) {
  Parts& p = *parts_;
  if (!on_screen) {
    p.window->SetOffScreenRendering(1);
    p.window->ShowWindowOff();
  }
  p.window->SetSize(kWidth, kHeight);
  p.window->SetWindowName(("thinspot: " + screen_text(start.title)).c_str());
  p.window->SetMultiSamples(8);
  p.window->SetNumberOfLayers(2);
  p.around->SetBackground(0.969, 0.973, 0.98);
  p.around->InteractiveOff();
  p.scene->SetViewport(kPlace[0], kPlace[1], kPlace[2], kPlace[3]);
  p.scene->SetLayer(1);
  p.window->AddRenderer(p.around);
  p.window->AddRenderer(p.scene);
  p.scene->GetActiveCamera()->ParallelProjectionOn();

  p.frame = std::make_unique<WindowFrame>(p.around);
  p.frame->set_title(start.title);
  if (data.liquid)
    p.liquid = std::make_unique<LiquidLayer>(
        *data.liquid, data.steps.back().surface, p.layer(), p.scene);
  p.coat = std::make_unique<CoatLayer>(data, p.layer(), p.scene);
  p.frame->set_coat_bar(p.coat->colours(), "coating:\nthickness, \u00B5m");
  p.scene->AddObserver(vtkCommand::StartEvent, &p, &Parts::keep_widths);
  look_at_all();
  show_step(start.step.value_or(data.steps.size() - 1));
}

WindowView::~WindowView() = default;

vtkRenderWindow* WindowView::window() const { return parts_->window; }
vtkRenderer* WindowView::frame() const { return parts_->around; }
std::size_t WindowView::step() const { return parts_->step; }

void WindowView::show_step(std::size_t step) {
  Parts& p = *parts_;
  p.step = std::min(step, p.data.steps.size() - 1);
  p.coat->show_step(p.step);
  p.frame->set_step(p.step_words());
  p.show_field();
  p.show_words(true);
}

void WindowView::change_field() {
  Parts& p = *parts_;
  p.field = p.field == LiquidColour::potential ? LiquidColour::current_density
                                               : LiquidColour::potential;
  p.show_field();
}

void WindowView::look_at_all() { parts_->look_at(parts_->all); }

void WindowView::look_at_parts() {
  parts_->look_at(box_of(parts_->data.steps[parts_->step].surface.points));
}

void WindowView::pan(int right, int up) {
  Parts& p = *parts_;
  p.look(p.middle() - p.mm_a_pixel() * Eigen::Vector2d(right, up),
         p.scene->GetActiveCamera()->GetParallelScale());
}

void WindowView::zoom(double factor, int x, int y) {
  Parts& p = *parts_;
  const double now = p.scene->GetActiveCamera()->GetParallelScale();
  const double then = std::clamp(now / factor, 1e-5 * p.layer(), 3 * p.layer());
  const Eigen::Vector2d held = p.place_at(x, y);
  p.look(held + (p.middle() - held) * (then / now), then);
}

void WindowView::ask(int x, int y) {
  Parts& p = *parts_;
  p.coat->mark(p.coat->nearest(p.place_at(x, y), kReach * p.mm_a_pixel()));
  p.show_words(true);
}

void WindowView::say(const std::string& text) {
  parts_->frame->set_reading(text);
}

void WindowView::draw() { parts_->window->Render(); }

std::string WindowView::png() {
  parts_->show_words(false);
  draw();
  vtkNew<vtkWindowToImageFilter> image;
  image->SetInput(parts_->window);
  image->ReadFrontBufferOff();
  vtkNew<vtkPNGWriter> writer;
  writer->SetInputConnection(image->GetOutputPort());
  writer->WriteToMemoryOn();
  writer->Write();
  parts_->show_words(true);
  vtkUnsignedCharArray* bytes = writer->GetResult();
  if (!bytes || bytes->GetNumberOfValues() == 0)
    throw NoResultError("the picture could not be drawn");
  const auto* first = reinterpret_cast<const char*>(bytes->GetPointer(0));
  return {first, static_cast<std::size_t>(bytes->GetNumberOfValues())};
}

}  // namespace thinspot::viz
