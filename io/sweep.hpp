#pragma once

#include "io/document.hpp"
#include "io/sweep_axis.hpp"
#include "io/sweep_columns.hpp"
#include "io/sweep_request.hpp"
#include "solver/case.hpp"

#include <Eigen/Core>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::io {

/// All points of a sweep, numbered from 0: of a grid in the order of --vary,
/// the last key fastest; of a sample as they were drawn. Points whose geometry
/// is the same form a group. Work goes through them by position, group after
/// group, so that whoever has a stretch of positions has few geometries.
class Sweep {
 public:
  /// @throws InputError where a key is none of the case, cannot stand beside
  ///         another, or where there are too many points.
  explicit Sweep(SweepRequest request);

  const SweepRequest& request() const { return request_; }
  const std::vector<SweepAxis>& axes() const { return axes_; }
  /// A column for each axis, and one for each output.
  const std::vector<SweepColumn>& inputs() const { return inputs_; }
  const std::vector<SweepOutput>& outputs() const { return outputs_; }
  std::uint64_t size() const { return size_; }
  bool is_grid() const { return request_.sample == 0; }

  /// Which value of an axis a point of a grid has.
  std::size_t value_index(std::uint64_t point, std::size_t axis) const;
  /// What an axis is set to at a point: a number in its unit, or which of its
  /// words; and as --set takes it.
  double number(std::uint64_t point, std::size_t axis) const;
  std::string text(std::uint64_t point, std::size_t axis) const;

  /// The case at a point.
  /// @throws InputError with the problems of its file.
  solver::Case content(std::uint64_t point) const;

  std::uint64_t point_at(std::uint64_t position) const;
  std::uint64_t group_of(std::uint64_t point) const;
  /// Whether points of a group share their meshes.
  bool shares() const { return !electric_.empty() && !lone_; }
  /// Cases that lie farthest apart in a point's group: what the group's meshes
  /// are made for. The same whatever the order of keys and values; those that
  /// cannot be read are left out.
  std::vector<solver::Case> corners(std::uint64_t point) const;

 private:
  void find_axes();
  void find_columns();
  void count_grid();
  void refuse_twice(std::size_t axis,
                    const std::vector<std::string_view>& not_beside,
                    const std::string& table) const;
  void draw();
  void sort_positions();
  /// The case with axes set; with none as the file has it.
  solver::Case with(const std::vector<std::string>& texts) const;
  std::optional<solver::Case> readable(
      const std::vector<std::string>& texts) const;
  std::optional<solver::Case> some_case() const;
  std::vector<std::string> texts_of(std::uint64_t point) const;
  std::uint64_t mixed(std::uint64_t point,
                      const std::vector<std::size_t>& of) const;

  SweepRequest request_;
  Node document_;
  std::vector<SweepAxis> axes_;
  std::vector<SweepColumn> inputs_;
  std::vector<SweepOutput> outputs_;
  /// Axes that change geometry, and those that leave it, in their order.
  std::vector<std::size_t> geometric_, electric_;
  bool lone_ = false;  ///< each point of the sample has a geometry of its own
  std::uint64_t size_ = 0;
  std::vector<std::uint64_t> stride_;  ///< of a grid, each axis
  Eigen::MatrixXd shares_;             ///< of a sample: points x axes, 0..1
  std::vector<std::uint32_t> order_;   ///< of a sample: points by position
};

/// More are several sweeps.
inline constexpr std::uint64_t kMostPoints = 10'000'000;
inline constexpr std::uint64_t kMostSamples = 1'000'000;
/// Numbers that a sample may be of, points times keys: every process holds it.
inline constexpr std::uint64_t kMostDrawn = 10'000'000;
inline constexpr std::size_t kMostAxes = 20;

}  // namespace thinspot::io
