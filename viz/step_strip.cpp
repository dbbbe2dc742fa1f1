#include "viz/step_strip.hpp"

#include "mesh/digits.hpp"
#include "solver/step_view.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/panel.hpp"
#include "viz/part_view.hpp"
#include "viz/picture_head.hpp"
#include "viz/scene.hpp"
#include "viz/section_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace thinspot::viz {

namespace {

constexpr std::size_t kMostPanels = 24, kMostInRow = 4;
constexpr double kMargin = 14, kBetween = 14, kWordsBelow = 46;
/// Of the coating's room in a picture of its own: panels are small.
constexpr double kThinner = 0.6;
constexpr double kTallest = 300;

/// First, last, and as many between as there is room for, evenly spread.
std::vector<std::size_t> shown_steps(std::size_t count) {
  std::vector<std::size_t> shown;
  const std::size_t most = std::min(count, kMostPanels);
  for (std::size_t k = 0; k < most; ++k)
    shown.push_back(most == 1 ? 0 : k * (count - 1) / (most - 1));
  return shown;
}

/// Around all parts wherever they stand in a layer, with their surroundings:
/// anodes that are near are in sight, so that one sees which side looks at
/// them.
mesh::Box box_of_parts(const solver::Result& result, std::size_t layer) {
  const mesh::Section& section =
      result.layers.empty() ? result.section : result.layers[layer].own.section;
  mesh::Box box{{1e9, 1e9}, {-1e9, -1e9}};
  const auto take_in = [](mesh::Box& all, const mesh::Box& b) {
    all.low = all.low.cwiseMin(b.low);
    all.high = all.high.cwiseMax(b.high);
  };
  for (const solver::StepResult& step : result.steps)
    for (const solver::PartResult& part : result.parts) {
      if (step.layer != layer) continue;
      const std::string& key = result.section.solids[part.solid].spec.key;
      take_in(box, solid_box(step.section, mesh::index_of(step.section, key)));
    }
  const double extent = box.size().maxCoeff();
  mesh::Box reach = box;
  reach.low.array() -= 2 * extent;
  reach.high.array() += 2 * extent;
  box.low.array() -= 0.5 * extent;
  box.high.array() += 0.5 * extent;
  for (std::size_t s = 0; s < section.solids.size(); ++s) {
    if (section.solids[s].spec.role != mesh::Role::anode) continue;
    mesh::Box anode = solid_box(section, s);
    if (mesh::distance(anode, reach) > 0) continue;
    // As much of it as stands beside the parts.
    const Point margin = Point::Constant(0.05 * extent);
    anode.low = (anode.low - margin).cwiseMax(reach.low);
    anode.high = (anode.high + margin).cwiseMin(reach.high);
    const bool beside =
        anode.high.x() < box.low.x() || anode.low.x() > box.high.x();
    if (beside) {
      anode.low.y() = std::max(anode.low.y(), box.low.y());
      anode.high.y() = std::min(anode.high.y(), box.high.y());
    } else {
      anode.low.x() = std::max(anode.low.x(), box.low.x());
      anode.high.x() = std::min(anode.high.x(), box.high.x());
    }
    take_in(box, anode);
  }
  const mesh::Box tank = tank_box(section);
  box.low = box.low.cwiseMax(tank.low);
  box.high = box.high.cwiseMin(tank.high);
  return box;
}

/// One for each layer, all of one size, so that panels are.
std::vector<mesh::Box> boxes_of(const solver::Result& result) {
  std::vector<mesh::Box> boxes;
  Point size(0, 0);
  const std::size_t count = std::max<std::size_t>(1, result.layers.size());
  for (std::size_t l = 0; l < count; ++l) {
    boxes.push_back(box_of_parts(result, l));
    size = size.cwiseMax(boxes.back().size());
  }
  for (mesh::Box& box : boxes) {
    const Point more = 0.5 * (size - box.size());
    box.low -= more;
    box.high += more;
  }
  return boxes;
}

std::string range_text(const solver::StepResult& step) {
  const solver::Interval grown = solver::thickness_after(step);
  return fmt::format("{} to {}", digits(grown.low * 1e6, 2),
                     micrometre_text(grown.high, 2));
}

void draw_words(Svg& svg, const solver::Result& result, std::size_t k,
                double left, double top) {
  const solver::StepResult& step = result.steps[k];
  svg.text({left, top},
           fmt::format("{}: {}", k + 1, digits(step.duration / 60) + " min"),
           {.size = 12, .bold = true});
  svg.text({left, top + 15}, solver::step_in_words(step),
           {.size = 11.5, .fill = colour::pale_ink});
  svg.text({left, top + 30}, range_text(step), {.size = 11.5});
}

}  // namespace

std::string step_strip(const solver::Result& result) {
  Svg svg("steps", page_width);
  double seconds = 0;
  for (const solver::StepResult& step : result.steps) seconds += step.duration;
  const double head =
      draw_head(svg, result.used,
                "The coating after each step, the part as it stands. " +
                    digits(seconds / 60) + " min in all");
  const std::vector<std::size_t> shown = shown_steps(result.steps.size());
  const std::size_t columns = std::min(shown.size(), kMostInRow);
  const double room =
      page_width - 2 * kMargin - kBetween * static_cast<double>(columns - 1);
  const double width =
      std::min(room / static_cast<double>(columns), 0.4 * page_width);
  const std::vector<mesh::Box> boxes = boxes_of(result);
  const mesh::Box& box = boxes.front();
  const double scale =
      std::min(width / box.size().x(), kTallest / box.size().y());
  const double height = box.size().y() * scale;
  const double factor =
      kThinner * exaggeration(result, frame_at(0, 0, box, scale));
  double bottom = head;
  std::string description = "The part after each step:";
  for (std::size_t n = 0; n < shown.size(); ++n) {
    const solver::Result view = solver::after_step(result, shown[n]);
    const double left =
        kMargin + static_cast<double>(n % columns) * (width + kBetween);
    const double top =
        head + 8 +
        static_cast<double>(n / columns) * (height + kWordsBelow + kBetween);
    const Frame frame =
        frame_at(left, top, boxes[result.steps[shown[n]].layer], scale);
    draw_panel(svg, scene_of(view), nullptr, frame, 0);
    svg.rect(frame.area, {.stroke = colour::pale_ink, .width = 0.8});
    draw_coating(svg, view, frame, factor);
    draw_words(svg, result, shown[n], left, top + height + 15);
    bottom = top + height + kWordsBelow;
    description += fmt::format(" {}: {}, {}.", shown[n] + 1,
                               solver::step_in_words(result.steps[shown[n]]),
                               range_text(result.steps[shown[n]]));
  }
  std::string note =
      fmt::format("Coating drawn {:.3g} times too thick.", factor);
  if (shown.size() < result.steps.size())
    note += fmt::format(" {} of {} steps are shown.", shown.size(),
                        result.steps.size());
  svg.text({kMargin, bottom + 14}, note,
           {.size = 11.5, .fill = colour::pale_ink});
  return svg.finish(bottom + 26, picture_title(result.used), description);
}

}  // namespace thinspot::viz
