#include "io/cli/sweep_pictures.hpp"

#include "io/trade_units.hpp"
#include "mesh/errors.hpp"
#include "viz/sweep_curves.hpp"
#include "viz/sweep_map.hpp"
#include "viz/sweep_scatter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <numeric>
#include <optional>

namespace thinspot::io::cli {

namespace {

using Pictures = std::vector<std::pair<std::string, std::string>>;

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
/// Curves that one picture holds, and grids beside each other.
constexpr std::size_t kMostCurves = 8, kMostPanels = 9;

/// A figure that is drawn, and the output that it is.
struct Drawn {
  std::size_t output = 0;
  std::string file;
  viz::SweptFigure figure;
};

constexpr const char* kEvenness = "heaviest_over_thinnest";
constexpr const char* kThinnest = "significant_min_um";
constexpr const char* kTime = "time_needed_min";
constexpr const char* kDensity = "largest_current_density_A_dm2";
constexpr const char* kVoltage = "voltage_V";
constexpr std::array kPictured{kEvenness, kThinnest, kTime, kDensity, kVoltage};
constexpr const char *kMap = "map_", *kCurves = "curves_",
                     *kScatter = "scatter_";

std::string picture_name(const char* kind, const std::string& output) {
  return kind + output + ".svg";
}

/// What lines are drawn at, where it is the same at all points.
struct Wanted {
  bool target = false;
  std::optional<double> thickness, density;  ///< [um], [A/dm2]
};

Wanted wanted_of(const Sweep& sweep) {
  Wanted w;
  try {
    const solver::Case c = sweep.content(0);
    w.target = c.target.thickness.has_value();
    if (std::any_of(sweep.axes().begin(), sweep.axes().end(),
                    [](const SweepAxis& axis) {
                      return axis.key.starts_with("target.");
                    }))
      return w;
    if (w.target) w.thickness = to_um(*c.target.thickness);
    if (c.target.burning_current_density)
      w.density = to_a_dm2(*c.target.burning_current_density);
  } catch (const InputError&) {  // the first point has no case
  }
  return w;
}

std::vector<Drawn> drawn_figures(const Sweep& sweep) {
  const Wanted w = wanted_of(sweep);
  std::vector<Drawn> all;
  const auto add = [&](const char* output, const char* name,
                       const std::string& unit, viz::Better better,
                       std::optional<double> wanted = {}) {
    all.push_back({output_index(sweep.outputs(), output),
                   output,
                   {name, unit, wanted, better}});
  };
  add(kEvenness, "heaviest over thinnest thickness", "", viz::Better::less);
  add(kThinnest, "thinnest significant spot", "µm", viz::Better::more,
      w.thickness);
  if (w.target) add(kTime, "time for the target", "min", viz::Better::less);
  add(kDensity, "largest current density", "A/dm²",
      w.density ? viz::Better::less : viz::Better::neither, w.density);
  add(kVoltage, "voltage", "V", viz::Better::neither);
  return all;
}

/// The values of an axis in the order in which they are drawn.
std::vector<std::size_t> drawn_order(const SweepAxis& axis) {
  std::vector<std::size_t> order(axis.texts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  if (!axis.has_words())
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return axis.numbers[a] < axis.numbers[b];
    });
  return order;
}

viz::SweptKey swept_key(const SweepAxis& axis) {
  viz::SweptKey key{axis.key, axis.unit, {}, {}, axis.by_factor};
  for (const std::size_t k : drawn_order(axis)) {
    key.values.push_back(axis.has_words() ? static_cast<double>(k)
                                          : axis.numbers[k]);
    if (axis.has_words()) key.words.push_back(axis.texts[k]);
  }
  return key;
}

/// A slice of a grid: two axes in full, of each other one or all values.
class Slice {
 public:
  /// @param x, y  axes; the same: one alone
  Slice(const Sweep& sweep, std::size_t x, std::size_t y)
      : sweep_(sweep), x_(x), y_(y) {
    std::size_t panels = 1;
    for (std::size_t k = 0; k < sweep.axes().size(); ++k) {
      places_.push_back(places_of(sweep.axes()[k]));
      if (k != x && k != y) panels *= sweep.axes()[k].texts.size();
    }
    all_panels_ = panels <= kMostPanels;
    panels_ = all_panels_ ? panels : 1;
    width_ = sweep.axes()[x].texts.size();
    height_ = x == y ? 1 : sweep.axes()[y].texts.size();
  }

  std::size_t width() const { return width_; }
  std::size_t height() const { return height_; }
  std::size_t panels() const { return panels_; }

  /// The values of an output, panel by panel, row by row.
  std::vector<double> values(const SweepStore& store,
                             std::size_t output) const {
    std::vector<double> all(width_ * height_ * panels_, kNone);
    store.for_each([&](const SweepRow& row) {
      if (row.outputs.empty()) return;
      if (const auto at = place(row.point)) all[*at] = row.outputs[output];
    });
    return all;
  }

  /// What the other keys are set to in a panel; "" where there are none.
  std::string where(std::size_t panel) const {
    std::string text;
    for (std::size_t k = sweep_.axes().size(); k-- > 0;) {
      if (k == x_ || k == y_) continue;
      const SweepAxis& axis = sweep_.axes()[k];
      std::size_t value = middle(k);
      if (all_panels_) {
        value = drawn_order(axis)[panel % axis.texts.size()];
        panel /= axis.texts.size();
      }
      text = axis.key + " = " + axis.texts[value] + (text.empty() ? "" : ", ") +
             text;
    }
    return text;
  }

 private:
  static std::vector<std::size_t> places_of(const SweepAxis& axis) {
    const std::vector<std::size_t> order = drawn_order(axis);
    std::vector<std::size_t> place(order.size());
    for (std::size_t k = 0; k < order.size(); ++k) place[order[k]] = k;
    return place;
  }

  std::size_t middle(std::size_t axis) const {
    const std::vector<std::size_t> order = drawn_order(sweep_.axes()[axis]);
    return order[order.size() / 2];
  }

  std::optional<std::size_t> place(std::uint64_t point) const {
    std::size_t panel = 0;
    for (std::size_t k = 0; k < sweep_.axes().size(); ++k) {
      if (k == x_ || k == y_) continue;
      const std::size_t value = sweep_.value_index(point, k);
      if (all_panels_)
        panel = panel * sweep_.axes()[k].texts.size() + places_[k][value];
      else if (value != middle(k))
        return std::nullopt;
    }
    const std::size_t x = places_[x_][sweep_.value_index(point, x_)];
    const std::size_t y =
        x_ == y_ ? 0 : places_[y_][sweep_.value_index(point, y_)];
    return (panel * height_ + y) * width_ + x;
  }

  const Sweep& sweep_;
  std::size_t x_, y_;
  std::vector<std::vector<std::size_t>> places_;  ///< of each axis' values
  bool all_panels_ = true;
  std::size_t panels_ = 1, width_ = 1, height_ = 1;
};

std::string title_of(const Sweep& sweep) {
  try {
    return sweep.content(0).title;
  } catch (const InputError&) {
    return sweep.request().file;
  }
}

/// The two axes with most values, in the order in which they were given.
std::pair<std::size_t, std::size_t> longest_axes(const Sweep& sweep) {
  std::vector<std::size_t> order(sweep.axes().size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(
      order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return sweep.axes()[a].texts.size() > sweep.axes()[b].texts.size();
      });
  return std::minmax(order[0], order[1]);
}

std::vector<double> piece_of(const std::vector<double>& all, std::size_t from,
                             std::size_t count) {
  const auto begin = all.begin() + static_cast<std::ptrdiff_t>(from);
  return {begin, begin + static_cast<std::ptrdiff_t>(count)};
}

std::vector<bool> flags(const std::vector<double>& values) {
  std::vector<bool> all;
  for (const double value : values) all.push_back(value == 1);
  return all;
}

/// Curves over one axis, one for each value of another, the rest as they are
/// in the middle.
void add_curves(const Sweep& sweep, const SweepStore& store, std::size_t x,
                std::size_t family, Pictures& pictures) {
  const Slice slice(sweep, x, family);
  const SweepAxis& of = sweep.axes()[family];
  const std::size_t panel = slice.panels() / 2;
  for (const Drawn& d : drawn_figures(sweep)) {
    const std::vector<double> values = slice.values(store, d.output);
    std::vector<viz::SweepCurve> curves;
    for (std::size_t k = 0; k < slice.height(); ++k)
      curves.push_back(
          {x == family ? "" : of.key + " = " + of.texts[drawn_order(of)[k]],
           piece_of(values, (panel * slice.height() + k) * slice.width(),
                    slice.width())});
    pictures.emplace_back(
        picture_name(kCurves, d.file),
        viz::sweep_curves(d.figure, swept_key(sweep.axes()[x]), curves,
                          title_of(sweep), slice.where(panel)));
  }
}

void add_maps(const Sweep& sweep, const SweepStore& store, std::size_t x,
              std::size_t y, Pictures& pictures) {
  const Slice slice(sweep, x, y);
  const viz::SweptKey along = swept_key(sweep.axes()[x]),
                      up = swept_key(sweep.axes()[y]);
  const std::size_t size = slice.width() * slice.height();
  const std::vector<double> burns =
      slice.values(store, output_index(sweep.outputs(), "burns"));
  for (const Drawn& d : drawn_figures(sweep)) {
    const std::vector<double> values = slice.values(store, d.output);
    std::vector<viz::SweepMap> panels;
    for (std::size_t k = 0; k < slice.panels(); ++k)
      panels.push_back({along, up, slice.where(k),
                        piece_of(values, k * size, size),
                        flags(piece_of(burns, k * size, size))});
    pictures.emplace_back(picture_name(kMap, d.file),
                          viz::sweep_map(d.figure, panels, title_of(sweep)));
  }
}

void add_scatters(const Sweep& sweep, const SweepStore& store,
                  Pictures& pictures) {
  std::vector<viz::SweptKey> keys;
  std::vector<std::vector<double>> at(sweep.axes().size());
  for (const SweepAxis& axis : sweep.axes()) keys.push_back(swept_key(axis));
  for (std::uint64_t point = 0; point < sweep.size(); ++point)
    for (std::size_t k = 0; k < at.size(); ++k)
      at[k].push_back(sweep.number(point, k));
  for (const Drawn& d : drawn_figures(sweep)) {
    std::vector<double> values(sweep.size(), kNone);
    store.for_each([&](const SweepRow& row) {
      if (!row.outputs.empty()) values[row.point] = row.outputs[d.output];
    });
    pictures.emplace_back(
        picture_name(kScatter, d.file),
        viz::sweep_scatter(d.figure, keys, at, values, title_of(sweep)));
  }
}

}  // namespace

Pictures sweep_pictures(const Sweep& sweep, const SweepStore& store) {
  Pictures pictures;
  if (!sweep.is_grid()) {
    add_scatters(sweep, store, pictures);
  } else if (sweep.axes().size() == 1) {
    add_curves(sweep, store, 0, 0, pictures);
  } else {
    const auto [x, y] = longest_axes(sweep);
    add_maps(sweep, store, x, y, pictures);
    const bool few_across =
        sweep.axes()[x].texts.size() < sweep.axes()[y].texts.size();
    const std::size_t along = few_across ? y : x, family = few_across ? x : y;
    if (sweep.axes()[family].texts.size() <= kMostCurves)
      add_curves(sweep, store, along, family, pictures);
  }
  return pictures;
}

std::vector<std::string> other_pictures(const Pictures& pictures) {
  std::vector<std::string> others;
  for (const char* kind : {kMap, kCurves, kScatter})
    for (const char* output : kPictured) {
      const std::string name = picture_name(kind, output);
      if (std::none_of(pictures.begin(), pictures.end(),
                       [&](const auto& p) { return p.first == name; }))
        others.push_back(name);
    }
  return others;
}

}  // namespace thinspot::io::cli
