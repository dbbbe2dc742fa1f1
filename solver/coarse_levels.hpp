#pragma once

#include "solver/aggregation.hpp"
#include "solver/dense.hpp"
#include "solver/symmetric_rows.hpp"

#include <vector>

namespace thinspot::solver {

/// A symmetric positive definite system and coarser and coarser ones of groups
/// of its unknowns, down to one that is factored: the W cycle over them is a
/// symmetric positive definite operator close to the inverse.
class CoarseLevels {
 public:
  explicit CoarseLevels(SymmetricRows finest);

  int size() const { return levels_.front().a.size(); }
  std::size_t count() const { return levels_.size(); }

  /// What one thread needs to work in, beside the two of the call.
  struct Room {
    struct OfLevel {
      LaneVector right, x, rest, again;
    };
    std::vector<OfLevel> levels;
  };
  Room room() const;

  /// x = cycle applied to right
  void cycle(const LaneVector& right, LaneVector& x, Room& room) const;

 private:
  struct Level {
    BorderedRows a;
    FullRows from_coarser;  ///< empty on the last
  };
  void cycle(std::size_t level, const LaneVector& right, LaneVector& x,
             Room& room) const;

  std::vector<Level> levels_;
  bool factored_ = false;
  DenseCholesky last_;
};

}  // namespace thinspot::solver
