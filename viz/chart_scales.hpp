#pragma once

#include "solver/result.hpp"
#include "viz/text_layout.hpp"

#include <vector>

namespace thinspot::viz {

/// The surface of a part unrolled onto the page: its loops one after another,
/// with a little room between them.
class UnrolledScale {
 public:
  /// @param left, right  ends on the page.
  UnrolledScale(const solver::Result& result, const solver::PartResult& part,
                double left, double right);

  struct Piece {
    double length = 0;  ///< of its surface [m]; 0: it has none
    double left = 0;    ///< on the page
    double right = 0;
  };
  const std::vector<Piece>& loops() const { return loops_; }

  /// @param arc  from the loop's lowest point [m].
  double page(int loop, double arc) const;

 private:
  std::vector<Piece> loops_;
};

/// A value from `low` at the bottom of a box to `high` at its top.
struct UprightScale {
  TextBox box;
  double low = 0, high = 1;
  double page(double value) const {
    return box.bottom - (value - low) / (high - low) * box.height();
  }
};

/// A run of neighbouring points of one face.
struct FaceRun {
  int face = 0;
  double left = 0, right = 0;  ///< on the page
  bool starts_loop = false;
};

std::vector<FaceRun> face_runs(const solver::PartResult& part,
                               const UnrolledScale& along);

}  // namespace thinspot::viz
