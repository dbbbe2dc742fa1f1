#pragma once

#include "viz/axis_scale.hpp"
#include "viz/svg.hpp"
#include "viz/sweep_chart.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::viz {

/// A varied key along a side of a panel: its values in equal cells side by
/// side, or each at its place by number or by factor. Words always have equal
/// cells.
class SweepAxis {
 public:
  enum class Form { cells, points };

  /// @param from, to  its ends on the page: from < to along the bottom,
  /// from > to upwards.
  /// @pre key.values is not empty
  SweepAxis(const SweptKey& key, double from, double to, Form form);

  /// Middle of the k-th value.
  double page(std::size_t k) const;
  /// Of a number, with Form::points; of words their index.
  double page_of(double value) const;
  /// Where the k-th value's cell begins, with Form::cells.
  double edge(std::size_t k) const;
  double cell_size() const;

  /// Numbers or words with the places on the page they stand at; not all may
  /// have room.
  const std::vector<Tick>& marks() const { return marks_; }
  /// Words too long to stand at an axis have letters there, "A", "B" ...
  bool lettered() const { return lettered_; }
  /// "A: two sheets, facing each other"; empty where none is needed.
  std::vector<std::string> letter_words() const;

  /// Room that the numbers need beside an upright axis.
  double label_width() const;
  /// Marks below `top`, those that have room. @returns where they end.
  double draw_below(Svg& svg, double top) const;
  /// Marks left of `right`.
  void draw_beside(Svg& svg, double right) const;

 private:
  bool is_level() const { return to_ > from_; }
  std::vector<Tick> number_marks() const;
  std::vector<Tick> word_marks();
  /// Of a number between the values of cells, which rise.
  double between(double value) const;

  SweptKey key_;
  double from_, to_;
  bool cells_;
  AxisScale scale_;
  bool lettered_ = false;
  std::vector<Tick> marks_;
};

/// The name below a level axis, centred, at most two lines.
/// @returns where it ends.
double draw_name_below(Svg& svg, const std::string& name, double left,
                       double right, double top);

/// How a number at an axis is written: short, with an exponent if need be.
std::string axis_number(const Tick& tick);

}  // namespace thinspot::viz
