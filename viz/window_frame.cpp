#include "viz/window_frame.hpp"

#include <vtkCoordinate.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkRenderer.h>
#include <vtkScalarBarActor.h>
#include <vtkTextActor.h>
#include <vtkTextProperty.h>

namespace thinspot::viz {

namespace {

void dress(vtkTextProperty* text, const char* colour, int size) {
  const Rgb c = rgb(colour);
  text->SetColor(c.red, c.green, c.blue);
  text->SetFontFamilyToArial();
  text->SetFontSize(size);
  text->BoldOff();
  text->ItalicOff();
  text->ShadowOff();
}

/// Bytes of the UTF-8 character that begins here; 0: none does.
std::size_t character_at(const std::string& text, std::size_t at) {
  const auto byte = [&](std::size_t k) {
    return static_cast<unsigned char>(k < text.size() ? text[k] : 0);
  };
  const unsigned char first = byte(at);
  std::size_t size = 0;
  if (first >= 0x20 && first < 0x7f) size = 1;
  // 0xc2 with less than 0xa0 is a control character.
  if (first >= 0xc2 && first < 0xe0)
    size = first == 0xc2 && byte(at + 1) < 0xa0 ? 0 : 2;
  if (first >= 0xe0 && first < 0xf0) size = 3;
  for (std::size_t k = 1; k < size; ++k)
    if ((byte(at + k) & 0xc0) != 0x80) return 0;
  return size;
}

}  // namespace

std::string screen_text(const std::string& text, std::size_t longest) {
  std::string clean;
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size();) {
    if (++count > longest) return clean + "\u2026";
    const std::size_t size = character_at(text, at);
    clean += size > 0 ? text.substr(at, size) : " ";
    at += size > 0 ? size : 1;
  }
  return clean;
}

struct WindowFrame::Parts {
  vtkNew<vtkTextActor> title, step, reading, keys, coat_title, liquid_title;
  vtkNew<vtkScalarBarActor> coat, liquid;

  static void show(vtkScalarBarActor* bar, const ColourScale* scale) {
    bar->SetVisibility(scale != nullptr);
    if (!scale) return;
    bar->SetLookupTable(scale->table());
    bar->SetNumberOfLabels(scale->labels());
  }
};

WindowFrame::WindowFrame(vtkRenderer* renderer)
    : parts_(std::make_unique<Parts>()) {
  Parts& p = *parts_;
  const auto add_text = [&](vtkTextActor* text, double x, double y, int size,
                            const char* colour) {
    text->GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
    text->SetPosition(x, y);
    dress(text->GetTextProperty(), colour, size);
    text->GetTextProperty()->SetVerticalJustificationToCentered();
    renderer->AddActor2D(text);
  };
  add_text(p.title, 0.015, 0.965, 20, colour::ink);
  p.title->GetTextProperty()->BoldOn();
  add_text(p.step, 0.015, 0.928, 15, colour::pale_ink);
  add_text(p.reading, 0.015, 0.062, 16, colour::ink);
  add_text(p.keys, 0.015, 0.024, 13, colour::pale_ink);
  add_text(p.coat_title, 0.86, 0.87, 14, colour::ink);
  add_text(p.liquid_title, 0.86, 0.435, 14, colour::ink);

  const auto add_bar = [&](vtkScalarBarActor* bar, double y) {
    bar->SetPosition(0.86, y);
    bar->SetWidth(0.1);
    bar->SetHeight(0.32);
    bar->SetBarRatio(0.25);
    bar->SetMaximumNumberOfColors(256);
    bar->SetLabelFormat("%.3g");
    bar->UnconstrainedFontSizeOn();
    bar->SetTitle("");
    dress(bar->GetLabelTextProperty(), colour::ink, 14);
    bar->VisibilityOff();
    renderer->AddActor2D(bar);
  };
  add_bar(p.coat, 0.51);
  add_bar(p.liquid, 0.07);
}

WindowFrame::~WindowFrame() = default;

void WindowFrame::set_title(const std::string& text) {
  parts_->title->SetInput(screen_text(text, 90).c_str());
}

void WindowFrame::set_step(const std::string& text) {
  parts_->step->SetInput(screen_text(text, 140).c_str());
}

void WindowFrame::set_reading(const std::string& text) {
  parts_->reading->SetInput(screen_text(text, 130).c_str());
}

void WindowFrame::set_keys(const std::string& text) {
  parts_->keys->SetInput(screen_text(text, 180).c_str());
}

void WindowFrame::set_coat_bar(const ColourScale& scale,
                               const std::string& title) {
  parts_->show(parts_->coat, &scale);
  parts_->coat_title->SetInput(title.c_str());
}

void WindowFrame::set_liquid_bar(const ColourScale* scale,
                                 const std::string& title) {
  parts_->show(parts_->liquid, scale);
  parts_->liquid_title->SetInput(scale ? title.c_str() : "");
}

}  // namespace thinspot::viz
